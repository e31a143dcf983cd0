// What HTML must keep to.
import { HtmlValidate } from "html-validate";

export const validator = new HtmlValidate({
  extends: ["html-validate:standard"],
  rules: {
    // What the compiler of the pages writes: lower case, no closing slash, long lines.
    "long-title": "off",
    "no-inline-style": "off",
    // An h1 in a header and one article a herb are meant.
    "no-raw-characters": ["error", { relaxed: true }],
  },
});
