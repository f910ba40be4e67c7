// Dimensions along the lower and left side: they stay in sight, beside the slab or at the rim of the view.

import { shape } from "./dom.js";

const GAP = 22;
const RIM = 16;
const TEXT_ROOM = 46;
const RUNNING_ROOM = 66;

export function dimensionStrings(picture, camera) {
  return picture.dimensions.flatMap((string) => one(string, picture.bounds, camera));
}

function one(string, [x0, y0], camera) {
  const level = string.axis === "x";
  const [width, height] = camera.size;
  const extent = level ? width : height;
  const to = (value) => (level ? camera.toScreen([value, 0])[0] : camera.toScreen([0, value])[1]);
  const line = level
    ? clamp(camera.toScreen([0, y0])[1] + GAP, RIM + 12, height - RIM)
    : clamp(camera.toScreen([x0, 0])[0] - GAP, RIM + 10, width - RIM - 60);
  const stops = string.stops.map(to);
  const at = (along, across = 0) => (level ? [along, line + across] : [line + across, along]);
  const seen = (value) => value >= -1 && value <= extent + 1;
  const [low, high] = [Math.min(stops[0], stops.at(-1)), Math.max(stops[0], stops.at(-1))];
  if (high < 0 || low > extent) return [];
  const [from, until] = [at(Math.max(low, 0)), at(Math.min(high, extent))];
  const ticks = stops.filter(seen).map((stop) => {
    const [[ax, ay], [bx, by]] = [at(stop, -5), at(stop, 5)];
    return `M${round(ax)} ${round(ay)}L${round(bx)} ${round(by)}`;
  });
  const lines = shape("path", { class: "string", d: `M${round(from[0])} ${round(from[1])}L${round(until[0])} ${round(until[1])}${ticks.join("")}` });
  const spans = visible(string, stops, extent);
  const tight = spans.filter((span) => span.room < TEXT_ROOM).length > spans.length / 2;
  const texts = tight ? running(string, stops, seen) : spans.filter((span) => span.room >= TEXT_ROOM);
  return [lines, ...texts.map(({ text, middle }) => words(text, at(middle, -6), level))];
}

// The spans in sight, each with the middle of the part that is seen.
function visible(string, stops, extent) {
  return string.texts.map((text, i) => {
    const [a, b] = [stops[i], stops[i + 1]].sort((p, q) => p - q);
    const [low, high] = [Math.max(a, 0), Math.min(b, extent)];
    return { text, room: high - low, middle: (low + high) / 2 };
  }).filter((span) => span.room > 0);
}

// Where the spans have no room for words, distances from the corner stand at as many stops as have.
function running(string, stops, seen) {
  let last = -Infinity;
  const out = [];
  stops.forEach((stop, i) => {
    if (!seen(stop) || Math.abs(stop - last) < RUNNING_ROOM) return;
    last = stop;
    out.push({ text: string.running[i], middle: stop });
  });
  return out;
}

function words(text, [x, y], level) {
  return shape("g", { class: "span", transform: `translate(${round(x)} ${round(y)})${level ? "" : " rotate(-90)"}` }, shape("text", {}, text));
}

const clamp = (value, least, most) => Math.max(least, Math.min(value, most));
const round = (value) => Math.round(value * 10) / 10;
