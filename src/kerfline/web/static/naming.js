// What a step is called, for undo and for who does not see the drawing: "move joint J2".

const NAMES = { penetration: "drain", forbidden: "forbidden line", "keep-out": "keep-out" };

export function named({ what, id }) {
  if (what === "outline") return "the outline";
  if (what === "tracing") return "the picture";
  return `${NAMES[what] ?? what} ${id}`;
}

export function gathered(items) {
  if (items.length === 1) return named(items[0]);
  const kinds = new Set(items.map((each) => each.what));
  return kinds.size === 1 ? `${items.length} ${plural(NAMES[items[0].what] ?? items[0].what)}` : `${items.length} things`;
}

function plural(word) {
  return `${word}s`;
}

const corner = (said) => `${said.what === "joint" ? "a bend" : "a corner"} of ${named(said)}`;
const joint = (said) => named({ what: "joint", id: said.id });

const WORDS = {
  slide: (said) => `move ${joint(said)}`,
  place: (said) => `move ${joint(said)}`,
  end: (said) => `move an end of ${joint(said)}`,
  "step-end": (said) => `move an end of ${joint(said)}`,
  vertex: (said) => `move ${corner(said)}`,
  "place-vertex": (said) => `move ${corner(said)}`,
  "add-vertex": (said) => `add ${corner(said)}`,
  "remove-vertex": (said) => `delete ${corner(said)}`,
  draw: () => "draw a joint",
  split: (said) => `split panel ${said.id}`,
  delete: (said) => `delete ${named(said)}`,
  pin: (said) => (said.id ? `${said.pinned ? "pin" : "unpin"} ${joint(said)}` : `${said.pinned ? "pin" : "unpin"} every joint`),
  kind: (said) => `make ${joint(said)} a ${said.kind} joint`,
  forbid: (said) => `forbid the line of ${joint(said)}`,
  add: (said) => `add a ${NAMES[said.what] ?? said.what}`,
  move: (said) => `move ${named(said)}`,
  set: (said) => `change the ${said.field} of ${named(said)}`,
  thickness: () => "change the thickness",
  rules: () => "change the rules",
  "column-grid": () => "add columns on a grid",
  "lay-tracing": () => "lay a picture underneath",
  "scale-tracing": () => "scale the picture",
  "square-tracing": () => "square the picture up",
  "move-tracing": () => "move the picture",
  "show-tracing": () => "change how the picture shows",
  "remove-tracing": () => "remove the picture",
  repeat: (said) => `copy ${gathered(said.items)}`,
};

export function stepName(said) {
  if (said.do !== "many") return WORDS[said.do]?.(said) ?? said.do;
  const first = WORDS[said.actions[0].do]?.(said.actions[0]) ?? "change";
  if (said.actions.length === 1) return first;
  return `${first.split(" ", 1)[0]} ${gathered(said.actions.map(({ what = "joint", id }) => ({ what, id })))}`;
}
