// Writes a distance that was tapped on the page, as units/writing.py writes every other length.

const INCH = 25.4;
const EIGHTHS = 8;
// Share of a step by which a length at the middle of two may be short and is rounded up all the same.
const EVEN = 2e-3;

export function lengthText(mm, display) {
  if (display === "metric") return `${steps(mm, 1)} mm`;
  return feetInches(steps(mm, INCH / EIGHTHS));
}

// A length in whole steps; one half way between two goes up. Adding zero takes the sign off nothing.
function steps(mm, step) {
  return Math.floor(mm / step + 0.5 + EVEN) + 0;
}

function feetInches(eighths) {
  const all = Math.abs(eighths);
  const whole = Math.floor(all / EIGHTHS);
  return `${eighths < 0 ? "-" : ""}${Math.floor(whole / 12)}'-${whole % 12}${fraction(all % EIGHTHS)}"`;
}

function fraction(eighths) {
  if (!eighths) return "";
  let top = eighths;
  let bottom = EIGHTHS;
  while (top % 2 === 0) {
    top /= 2;
    bottom /= 2;
  }
  return ` ${top}/${bottom}`;
}
