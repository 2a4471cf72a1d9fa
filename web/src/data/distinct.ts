// Keys of a list whose rows may be alike: each row by what it is, and by which of those it is. A row keeps
// its focus and what was opened at it when another comes in before it; two of one key would take the
// page down.

export function distinct<Row>(rows: readonly Row[], of: (row: Row) => string): string[] {
  const met = new Map<string, number>();
  return rows.map((row) => {
    const key = of(row);
    const nth = (met.get(key) ?? 0) + 1;
    met.set(key, nth);
    return `${key} ${nth}`;
  });
}
