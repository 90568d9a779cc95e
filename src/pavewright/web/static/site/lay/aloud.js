// @ts-check
/** Reading aloud, where the browser can: for somebody who kneels and has no eyes for a screen. */
import { tag } from "../../lib/writing.js";

/** Whether this browser can read aloud at all. */
export const canSpeak = () => "speechSynthesis" in window && typeof SpeechSynthesisUtterance === "function";

/** Signs that a voice does not say, as words. @type {[RegExp, string][]} */
const SPOKEN = [
  [/−|(?<=\s|^)-(?=\d)/g, "minus "],
  [/\bmm\b/g, "millimetres"],
  [/ %/g, " per cent"],
  [/±/g, "give or take "],
  [/½/g, " and a half"],
  [/[✓✕?▲▼↑↓●]/g, ""],
  [/ – |: /g, ", "],
];

/** Words as a voice says them. @param {string} words */
export const asSpoken = (words) =>
  SPOKEN.reduce((said, [sign, word]) => said.replace(sign, word), words)
    .replace(/\s+/g, " ")
    .trim();

/** Read words aloud; what was being said stops. @param {string} words */
export function speak(words) {
  if (!canSpeak()) return;
  const said = new SpeechSynthesisUtterance(asSpoken(words));
  said.lang = tag();
  speechSynthesis.cancel();
  speechSynthesis.speak(said);
}

export const hushVoice = () => {
  if (canSpeak()) speechSynthesis.cancel();
};
