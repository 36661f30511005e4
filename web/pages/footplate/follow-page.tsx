import { useEffect } from "preact/hooks";
import { keepToken } from "../../api/token.ts";
import { replaceAddress, route } from "../../route.ts";

/** A reading link: its key is kept, and taken out of the address so that it is not passed on by accident. */
export function FollowPage() {
  const token = route.value.query.get("token");
  useEffect(() => {
    if (token === null || token === "") return;
    keepToken(token);
    replaceAddress("#/shed");
  }, [token]);
  return token === null || token === "" ? <p>This reading link is not whole: ask for it again.</p> : null;
}
