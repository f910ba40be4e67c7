export function bindImport() {}
