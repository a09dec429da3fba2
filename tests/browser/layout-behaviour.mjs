export function behaviours() {}
