/** What the server tells of a mold: `told.py` makes it. */

export interface Lengths {
  readonly mm: readonly number[];
  readonly told: readonly string[];
}

export interface Legend {
  readonly limits_mm: readonly number[];
  readonly limits: readonly string[];
  readonly unit: string;
  readonly shares: readonly number[];
  readonly shares_told: readonly string[];
  readonly above: boolean;
}

/** Where a quantity is least or most, told; the corner of its solid that is there. */
export interface End {
  readonly name: "least" | "most";
  readonly told: string;
  readonly corner: number;
}

export interface Quantity {
  readonly name: string;
  readonly title: string;
  readonly told: string;
  readonly leaves: readonly string[];
  readonly part: string;
  readonly allowed_mm: number | null;
  readonly needed_mm: number | null;
  readonly legend: Legend;
  readonly at_bench: string;
  readonly ends: readonly End[];
}

export interface Part {
  readonly id: string;
  readonly kind: string;
  readonly name: string;
  readonly line: string;
}

export interface Told {
  readonly solids: string;
  readonly place: string;
  readonly between: string;
  readonly apart: Lengths;
  readonly cut: Lengths;
  readonly bars: Lengths;
  readonly parts: readonly Part[];
  readonly quantities: readonly Quantity[];
}

export type Rows = readonly (readonly [string, string])[];
export type Words = Readonly<Record<string, string>>;

/** JSON from the server; what it refuses is thrown as its remedy. */
export async function asked<T>(path: string): Promise<T> {
  const answer = await fetch(path, { headers: { Accept: "application/json" } });
  const body = await answer.json();
  if (!answer.ok) throw new Error(body?.error?.remedy ?? answer.statusText);
  return body as T;
}
