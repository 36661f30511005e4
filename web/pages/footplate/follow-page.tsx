import { useEffect } from "preact/hooks";
import { keepToken, token as ownToken } from "../../api/token.ts";
import { replaceAddress, route } from "../../route.ts";

/**
 * A reading link: its key is kept, and taken out of the address so that it is not passed on by accident. A phone that
 * has a key of its own which is still good keeps that: a recorder must not become a reader by opening a link.
 */
export default function FollowPage() {
  const token = route.value.query.get("token");
  useEffect(() => {
    if (token === null || token === "") return;
    void hasGoodKey().then((good) => {
      if (!good) keepToken(token);
      replaceAddress("#/shed");
    });
  }, [token]);
  return token === null || token === "" ? <p>This reading link is not whole: ask for it again.</p> : null;
}

async function hasGoodKey(): Promise<boolean> {
  if (ownToken.value === null) return false;
  try {
    const answer = await fetch("api/footplate", { headers: { authorization: `Bearer ${ownToken.value}` } });
    // a server that cannot answer now says nothing against the key
    return answer.status !== 401;
  } catch {
    return true;
  }
}
