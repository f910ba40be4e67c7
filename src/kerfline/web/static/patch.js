// Applies what the program says has changed; the same as in differences.py.

export function patched(old, change) {
  if (!change) return old;
  const [kind, one, two] = change;
  if (kind === "=") return one;
  if (kind === "{") {
    const out = { ...old };
    for (const key of two) delete out[key];
    for (const [key, part] of Object.entries(one)) out[key] = patched(old[key], part);
    return out;
  }
  const known = new Map(old.map((item) => [item.id, item]));
  for (const [id, value] of Object.entries(two)) known.set(id, value);
  return (one ?? old.map((item) => item.id)).map((id) => known.get(id));
}
