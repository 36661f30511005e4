import { render } from "preact";
import { App } from "./app.tsx";
import { followTheme } from "./preferences/theme.ts";

followTheme();
const page = document.getElementById("page");
if (page === null) throw new Error("the document has no element with the id page");
render(<App />, page);
