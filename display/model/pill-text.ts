/** Advance widths at weight 800 with figures of one width, measured in the font; parts of the font size. */
const DIGIT_EM = 0.64;
const DASH_EM = 0.47;
const SPACE_EM = 0.25;
const PLUS_EM = 0.63;
const LETTER_EM = 0.53;

/** About how wide a pill's label is, in parts of its font size: "27–30 +4". Never less than it is. */
export function labelEm(label: string): number {
  let em = 0;
  for (const letter of label) {
    if (letter >= "0" && letter <= "9") em += DIGIT_EM;
    else if (letter === "–") em += DASH_EM;
    else if (letter === " ") em += SPACE_EM;
    else if (letter === "+") em += PLUS_EM;
    else em += LETTER_EM;
  }
  return em;
}
