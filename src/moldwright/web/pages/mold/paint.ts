/** How a surface is painted: one color, or eight leaves with a dark line at each limit and hatching past what is allowed. */

import { Color, FrontSide, ShaderMaterial, type Plane } from "three";
import { NOTHING } from "./solids";
import type { Quantity } from "./told";

const BEFORE = /* glsl */ `
#include <clipping_planes_pars_vertex>
attribute float quantity;
varying float vQuantity;
varying vec3 vNormalSeen;
void main() {
  vQuantity = quantity;
  vNormalSeen = normalMatrix * normal;
  vec4 mvPosition = modelViewMatrix * vec4(position, 1.0);
  #include <clipping_planes_vertex>
  gl_Position = projectionMatrix * mvPosition;
}`;

const EACH = /* glsl */ `
#include <clipping_planes_pars_fragment>
uniform vec3 plain;
uniform vec3 ink;
uniform vec3 leaves[8];
uniform float low;
uniform float thick;
uniform float allowed;
uniform float mapped;
varying float vQuantity;
varying vec3 vNormalSeen;
void main() {
  #include <clipping_planes_fragment>
  vec3 color = plain;
  float q = (vQuantity - low) / thick;
  bool known = vQuantity > ${(NOTHING / 2).toFixed(1)};
  if (mapped > 0.5 && known) {
    int leaf = int(clamp(floor(q), 0.0, 7.0));
    for (int n = 0; n < 8; n++) if (n == leaf) color = leaves[n];
    float line = abs(fract(q + 0.5) - 0.5) / max(fwidth(q), 1e-6);
    if (q > 0.5 && q < 7.5) color = mix(ink, color, smoothstep(0.5, 1.4, line));
  }
  vec3 n = normalize(vNormalSeen);
  float light = 0.52 + 0.48 * max(dot(n, normalize(vec3(-0.4, 0.55, 0.7))), 0.0) - 0.14 * max(-n.y, 0.0);
  color *= light;
  if (known && vQuantity > allowed) {
    vec2 hatch = abs(fract(vec2(gl_FragCoord.x + gl_FragCoord.y, gl_FragCoord.x - gl_FragCoord.y) / 11.0) - 0.5);
    if (min(hatch.x, hatch.y) < 0.06) color = mix(color, ink, 0.7);
  }
  gl_FragColor = vec4(color, 1.0);
  #include <colorspace_fragment>
}`;

/** A surface's paint; the same planes cut all of them. */
export function paint(planes: Plane[]): ShaderMaterial {
  return new ShaderMaterial({
    vertexShader: BEFORE,
    fragmentShader: EACH,
    clipping: true,
    clippingPlanes: planes,
    side: FrontSide,
    uniforms: {
      plain: { value: new Color() },
      ink: { value: new Color() },
      leaves: { value: Array.from({ length: 8 }, () => new Color()) },
      low: { value: 0 },
      thick: { value: 1 },
      allowed: { value: 1e9 },
      mapped: { value: 0 },
    },
  });
}

/** One color, hatched past what is allowed. */
export function plain(material: ShaderMaterial, color: string, allowed: number | null): void {
  set(material, "plain", new Color(color));
  set(material, "ink", new Color(token("ink-dark")));
  set(material, "allowed", allowed ?? 1e9);
  set(material, "mapped", 0);
}

/** The leaves of a quantity. */
export function leaved(material: ShaderMaterial, quantity: Quantity): void {
  const limits = quantity.legend.limits_mm;
  const [low, next] = [limits[0] ?? 0, limits[1] ?? 1];
  set(material, "leaves", colors(quantity.colors).map((color) => new Color(color)));
  set(material, "ink", new Color(token("ink-dark")));
  set(material, "low", low);
  set(material, "thick", next - low);
  set(material, "allowed", quantity.allowed_mm ?? 1e9);
  set(material, "plain", new Color(token("fill")));
  set(material, "mapped", 1);
}

/** The eight colors of a map of the design tokens. */
export function colors(map: string): string[] {
  return Array.from({ length: 8 }, (_, n) => token(`${map}${n + 1}`));
}

/** A color of the look that the page has now. */
export function token(name: string): string {
  if (name === "ink-dark") return "#10201c";
  return getComputedStyle(document.documentElement).getPropertyValue(`--${name}`).trim() || "#888888";
}

function set(material: ShaderMaterial, name: string, value: unknown): void {
  const uniform = material.uniforms[name];
  if (uniform) uniform.value = value;
}
