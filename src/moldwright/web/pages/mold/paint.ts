/** How a surface is painted: one color, or eight leaves with a dark line at each limit; patterns lie on the surface. */

import { Color, FrontSide, ShaderMaterial, type Plane } from "three";
import { CROSSED, PATTERNS } from "./patterns";
import { NOTHING } from "./solids";
import type { Quantity } from "./told";

/** A pattern's marks are so far apart, as a share of how wide everything is. */
const STEP = 1 / 46;
/** On what is darker than this, marks are light: there both would be seen alike. */
const DARK = 0.18;
const SHARES = [0.2126, 0.7152, 0.0722] as const;
const INK = "#10201c";
const PAPER = "#f8faf7";
const NEVER = 1e9;

const BEFORE = /* glsl */ `
#include <clipping_planes_pars_vertex>
attribute float quantity;
varying float vQuantity;
varying vec3 vNormalSeen;
varying vec3 vFacing;
varying vec3 vPlace;
void main() {
  vQuantity = quantity;
  vNormalSeen = normalMatrix * normal;
  vFacing = abs(normal);
  vPlace = position;
  vec4 mvPosition = modelViewMatrix * vec4(position, 1.0);
  #include <clipping_planes_vertex>
  gl_Position = projectionMatrix * mvPosition;
}`;

const EACH = /* glsl */ `
#include <clipping_planes_pars_fragment>
uniform vec3 plain;
uniform vec3 ink;
uniform vec3 paper;
uniform vec3 leaves[8];
uniform float low;
uniform float thick;
uniform float allowed;
uniform float needed;
uniform float mapped;
uniform float lit;
uniform float apart_mm;
uniform bool patterned;
uniform int own;
varying float vQuantity;
varying vec3 vNormalSeen;
varying vec3 vFacing;
varying vec3 vPlace;
${PATTERNS}
vec2 flat_of(vec3 place) {
  if (vFacing.z >= max(vFacing.x, vFacing.y)) return place.xy;
  return vFacing.x > vFacing.y ? place.yz : place.xz;
}
void main() {
  #include <clipping_planes_fragment>
  vec3 place = vPlace / apart_mm;
  vec3 soft = max(fwidth(place), 1e-4);
  vec3 color = plain;
  int which = own;
  float q = (vQuantity - low) / thick;
  bool known = vQuantity > ${(NOTHING / 2).toFixed(1)};
  bool leafed = mapped > 0.5 && known;
  if (leafed) {
    which = int(clamp(floor(q), 0.0, 7.0));
    for (int n = 0; n < 8; n++) if (n == which) color = leaves[n];
  }
  bool past = known && (vQuantity > allowed || (mapped > 0.5 && vQuantity < needed));
  if (past) which = ${CROSSED};
  vec3 mark = dot(color, vec3(${SHARES.join(", ")})) < ${DARK} ? paper : ink;
  if (past || patterned) color = mix(color, mark, 0.75 * pattern(which, flat_of(place), flat_of(soft)));
  if (leafed && q > 0.5 && q < 7.5) {
    float line = abs(fract(q + 0.5) - 0.5) / max(fwidth(q), 1e-6);
    color = mix(ink, color, smoothstep(0.5, 1.4, line));
  }
  vec3 n = normalize(vNormalSeen);
  float light = 0.52 + 0.48 * max(dot(n, normalize(vec3(-0.4, 0.55, 0.7))), 0.0) - 0.14 * max(-n.y, 0.0);
  gl_FragColor = vec4(color * mix(1.0, light, lit), 1.0);
  #include <colorspace_fragment>
}`;

/** A paint; the same planes cut all surfaces, none cuts a cap, which is not shaded either. */
export function paint(across: number, planes: Plane[] | null): ShaderMaterial {
  return new ShaderMaterial({
    vertexShader: BEFORE,
    fragmentShader: EACH,
    clipping: planes !== null,
    clippingPlanes: planes,
    side: FrontSide,
    uniforms: {
      plain: { value: new Color() },
      ink: { value: new Color(INK) },
      paper: { value: new Color(PAPER) },
      leaves: { value: Array.from({ length: 8 }, () => new Color()) },
      low: { value: 0 },
      thick: { value: 1 },
      allowed: { value: NEVER },
      needed: { value: -NEVER },
      mapped: { value: 0 },
      lit: { value: planes === null ? 0 : 1 },
      apart_mm: { value: STEP * across },
      patterned: { value: false },
      own: { value: 0 },
    },
  });
}

/** One color with a pattern of its own; crossed past what is allowed. */
export function plain(material: ShaderMaterial, color: string, allowed: number | null, own: number): void {
  set(material, { plain: new Color(color), allowed: allowed ?? NEVER, mapped: 0, own });
}

/** The leaves of a quantity. */
export function leaved(material: ShaderMaterial, quantity: Quantity): void {
  const limits = quantity.legend.limits_mm;
  const [low, next] = [limits[0] ?? 0, limits[1] ?? 1];
  const leaves = quantity.leaves.map((color) => new Color(color));
  const [allowed, needed] = [quantity.allowed_mm ?? NEVER, quantity.needed_mm ?? -NEVER];
  set(material, { leaves, low, thick: next - low, allowed, needed, plain: new Color(token("fill")), mapped: 1, own: 0 });
}

/** Whether patterns are drawn besides the colors. */
export function pattern(material: ShaderMaterial, patterned: boolean): void {
  set(material, { patterned });
}

/** A color of the look that the page has now. */
export function token(name: string): string {
  return getComputedStyle(document.documentElement).getPropertyValue(`--${name}`).trim() || "#888888";
}

/** The color of marks on a color: what is read on it. */
export function markOn(color: string): string {
  const { r, g, b } = new Color(color);
  return SHARES[0] * r + SHARES[1] * g + SHARES[2] * b < DARK ? PAPER : INK;
}

function set(material: ShaderMaterial, values: Readonly<Record<string, unknown>>): void {
  for (const [name, value] of Object.entries(values)) {
    const uniform = material.uniforms[name];
    if (uniform) uniform.value = value;
  }
}
