/** UUIDs of version 7 (RFC 9562, 5.7): those of this device rise, whatever its clock does and over every reload. */

const LAST = "moldwright-last-id";
const MOST = 1n << 74n;

/** The id that follows the last one: of that time, or of the last one's where that was later. */
export function after(last: string, at_ms: number, chance: bigint): string {
  const before = last ? BigInt(`0x${last.replaceAll("-", "")}`) : 0n;
  const lastMs = Number(before >> 80n);
  const lastChance = ((before >> 64n) & 0xfffn) << 62n | (before & ((1n << 62n) - 1n));
  const ms = Math.max(Math.floor(at_ms), lastMs);
  const rises = last !== "" && ms === lastMs;
  const next = rises ? lastChance + (chance & 0xffffffffffn) + 1n : chance >> 1n;
  return next < MOST ? written(ms, next) : written(ms + 1, chance >> 1n);
}

function written(ms: number, chance: bigint): string {
  const whole = (BigInt(ms) << 80n) | (7n << 76n) | ((chance >> 62n) << 64n) | (2n << 62n) | (chance & ((1n << 62n) - 1n));
  const hex = whole.toString(16).padStart(32, "0");
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join("-");
}

/** A new id of this device. */
export function newId(at_ms: number): string {
  const bytes = crypto.getRandomValues(new Uint8Array(10));
  const chance = bytes.reduce((sum, byte) => (sum << 8n) | BigInt(byte), 0n) & (MOST - 1n);
  const id = after(localStorage.getItem(LAST) ?? "", at_ms, chance);
  localStorage.setItem(LAST, id);
  return id;
}
