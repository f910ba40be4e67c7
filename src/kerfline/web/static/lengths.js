// Writes a distance that was tapped on the page. Every other length comes ready written.

const INCH = 25.4;
const SIXTEENTHS = 16;

export function lengthText(mm, display) {
  return display === "metric" ? `${halfEven(mm)} mm` : feetInches(mm);
}

function feetInches(mm) {
  const all = halfEven((Math.abs(mm) / INCH) * SIXTEENTHS);
  const sign = mm < 0 && all ? "-" : "";
  const whole = Math.floor(all / SIXTEENTHS);
  return `${sign}${Math.floor(whole / 12)}'-${whole % 12}${fraction(all % SIXTEENTHS)}"`;
}

function fraction(sixteenths) {
  if (!sixteenths) return "";
  let top = sixteenths;
  let bottom = SIXTEENTHS;
  while (top % 2 === 0) {
    top /= 2;
    bottom /= 2;
  }
  return ` ${top}/${bottom}`;
}

function halfEven(value) {
  const floor = Math.floor(value);
  if (value - floor !== 0.5) return Math.round(value);
  return floor % 2 === 0 ? floor : floor + 1;
}
