/** How a cup goes into the mold, in a section: which way up it stands, and where the stream goes in. */

import { draw } from "../../../parts/make";
import type { Pour } from "../told";

const SHELL = "M16 22V128H184V22H164V70Q160 108 100 108 40 108 36 70V22z";
const GLOVE = "M36 22V70Q40 108 100 108 160 108 164 70V22H154V68Q150 98 100 98 50 98 46 68V22z";
const LEVELS: Readonly<Record<Pour, string>> = {
  "": "",
  turned: "M62 88Q76 98 100 98 124 98 138 88z",
  filled: "M46 22V68Q50 98 100 98 150 98 154 68V22z",
  "down-a-side": "M46 52V68Q50 98 100 98 150 98 154 68V52z",
};
const STREAMS: Readonly<Record<Pour, string>> = {
  "": "",
  turned: "M100 0V86",
  filled: "M52 0V40",
  "down-a-side": "M52 0V52",
};

/** `words` say it to who does not see. */
export function pouring(pour: Exclude<Pour, "">, words: string): SVGElement {
  return draw(
    "svg.pour-drawing",
    { viewBox: "0 -26 200 160", role: "img", "aria-label": words },
    draw("path", { d: LEVELS[pour], class: "pour-level" }),
    draw("path", { d: SHELL, class: "pour-shell" }),
    draw("path", { d: GLOVE, class: "pour-glove" }),
    draw("path", { d: STREAMS[pour], class: "pour-stream" }),
    draw("path", { d: lip(pour), class: "pour-cup" }),
    pour === "turned" ? turning() : null,
  );
}

/** The cup that is poured from, tipped over the place where the stream goes in. */
function lip(pour: Exclude<Pour, "">): string {
  const at = pour === "turned" ? 100 : 52;
  return `M${at - 1} 0l34 -8 -6 -18 -36 9z`;
}

/** The mold is turned about its middle, both ways. */
function turning(): SVGElement {
  return draw("path.pour-turn", { d: "M44 -2Q20 -8 6 8M6 8l1 -12M6 8l12 -2M156 -2Q180 -8 194 8M194 8l-1 -12M194 8l-12 -2" });
}
