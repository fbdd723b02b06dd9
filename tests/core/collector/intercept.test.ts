import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { blurredUniform, normalShare } from "../../../src/core/collector/blurred-uniform.ts";
import { interceptFactor, type ShapeOptics } from "../../../src/core/collector/intercept.ts";
import { opticalEfficiency } from "../../../src/core/collector/optical-efficiency.ts";
import { gaussLegendre, integral } from "../../../src/core/collector/quadrature.ts";
import { brightness, sunDiscs } from "../../../src/core/collector/sun-shape.ts";
import { type RandomStream, randomStream } from "../../../src/core/sun/random.ts";
import { radians } from "../../../src/core/units.ts";
import { expectClose, expectPrinted } from "../../support/close.ts";

const trough: ShapeOptics = {
  by: "shape",
  shape: "trough",
  concentration: 22.7,
  rimAngle_deg: 70,
  slopeError_mrad: 0,
  specularity_mrad: 0,
  trackingError_mrad: 0,
  sunShape: "disc",
  filmTransmittance: 0.9,
  filmPasses: 2,
  reflectance: 0.85,
  absorptance: 0.95,
  receiverShadow: 0.02,
};
const dish: ShapeOptics = { ...trough, shape: "dish", concentration: 800, rimAngle_deg: 45 };

describe("intercept factor", () => {
  // Largest concentrations that hold the whole image of the sun, half-angle δ: tube sin φ/(π·sin δ)
  // (D&B sec. 7.9), flat disc sin²φ·cos²(φ + δ)/sin²δ (D&B sec. 7.11; Rabl 1985, both from memory).
  it("is 1 up to the concentration at which the receiver holds the sun's image, and below 1 beyond", () => {
    const tube = Math.sin(70 * radians) / (Math.PI * Math.sin(4.65e-3));
    expectClose(interceptFactor({ ...trough, concentration: 0.999 * tube }), 1, 1e-9);
    expect(interceptFactor({ ...trough, concentration: 1.1 * tube })).toBeLessThan(0.9999);
    const disc = (Math.sin(0.7) * Math.cos(0.7 + 4.65e-3)) ** 2 / Math.sin(4.65e-3) ** 2;
    const steep = { ...dish, rimAngle_deg: 0.7 / radians };
    expectClose(interceptFactor({ ...steep, concentration: 0.98 * disc }), 1, 1e-4);
    expect(interceptFactor({ ...steep, concentration: 1.3 * disc })).toBeLessThan(0.999);
  });

  it("is 1 for a receiver as large as the light, and falls with each error and with concentration", () => {
    expectClose(
      interceptFactor({ ...trough, concentration: 1, rimAngle_deg: 30, slopeError_mrad: 5 }),
      1,
      1e-9,
    );
    const error = fc.double({ min: 0, max: 30, noNaN: true });
    const names = ["slopeError_mrad", "specularity_mrad", "trackingError_mrad"] as const;
    const mirror = fc.constantFrom(trough, dish);
    fc.assert(
      fc.property(mirror, error, error, fc.constantFrom(...names), (base, common, more, name) => {
        const before: ShapeOptics = { ...base, slopeError_mrad: common, specularity_mrad: common };
        const after = { ...before, [name]: before[name] + more };
        const denser = { ...before, concentration: before.concentration * (1 + more / 10) };
        const gamma = interceptFactor(before);
        expect(gamma).toBeGreaterThanOrEqual(0);
        expect(gamma).toBeLessThanOrEqual(1);
        expect(interceptFactor(after)).toBeLessThanOrEqual(gamma + 2e-4);
        expect(interceptFactor(denser)).toBeLessThanOrEqual(gamma + 2e-4);
      }),
      { numRuns: 60 },
    );
  });

  it("loses more light to a hazy sun than to a clear one", () => {
    for (const mirror of [trough, dish]) {
      const clear = interceptFactor({ ...mirror, slopeError_mrad: 3, sunShape: "limb-darkened" });
      expect(interceptFactor({ ...mirror, slopeError_mrad: 3, sunShape: "hazy" })).toBeLessThan(
        clear - 0.005,
      );
    }
  });

  const errors = { slopeError_mrad: 4, specularity_mrad: 2, trackingError_mrad: 3 };
  const cases: [string, ShapeOptics][] = [
    ["a trough under a disc", { ...trough, ...errors }],
    ["a coarse trough in haze", { ...trough, ...errors, slopeError_mrad: 9, sunShape: "hazy" }],
    [
      "a deep trough without errors",
      { ...trough, rimAngle_deg: 110, concentration: 90, sunShape: "limb-darkened" },
    ],
    ["a dish under a disc", { ...dish, ...errors }],
    [
      "a sharp dish with a small receiver",
      { ...dish, concentration: 14_000, slopeError_mrad: 0.5, sunShape: "limb-darkened" },
    ],
    [
      "a deep coarse dish in haze",
      { ...dish, ...errors, rimAngle_deg: 75, concentration: 400, sunShape: "hazy" },
    ],
    ["a dish whose outer mirror looks away", { ...dish, ...errors, rimAngle_deg: 105, concentration: 200 }],
  ];
  it.each(cases)("agrees with rays traced by chance for %s", (_, mirror) => {
    const rays = 100_000;
    const random = randomStream(7);
    let caught = 0;
    for (let i = 0; i < rays; i += 1) if (traced(mirror, random)) caught += 1;
    const share = caught / rays;
    const deviation = Math.sqrt((share * (1 - share) + 1 / rays) / rays);
    expect(Math.abs(interceptFactor(mirror) - share)).toBeLessThan(3.5 * deviation);
  });
});

describe("optics by shape", () => {
  it("multiplies film, mirror, intercept, absorber and what is not shadowed", () => {
    const wide = { ...trough, concentration: 5 };
    expectClose(opticalEfficiency(wide), 0.9 ** 2 * 0.85 * 0.95 * 0.98, 1e-9);
    const coarse = { ...trough, slopeError_mrad: 10 };
    expectClose(
      opticalEfficiency(coarse) / opticalEfficiency(wide),
      interceptFactor(coarse) / interceptFactor(wide),
      1e-12,
    );
  });
});

describe("sun shapes", () => {
  // Buie et al. 2003: the profile's parameter χ is its circumsolar ratio, to about a hundredth (from memory).
  it("holds about a tenth of a hazy sun's light outside the disc", () => {
    const rule = gaussLegendre(40);
    const flux = (from: number, to: number) => integral(rule, from, to, (a) => a * brightness("hazy", a));
    const beside = flux(4.6501, 43.6);
    expect(Math.abs(beside / (beside + flux(0, 4.65)) - 0.1)).toBeLessThan(0.01);
  });

  it("writes each sun as discs of the same light and the same spread", () => {
    const rule = gaussLegendre(40);
    for (const shape of ["disc", "limb-darkened", "hazy"] as const) {
      const moment = (power: number) =>
        integral(rule, 0, 4.65, (a) => brightness(shape, a) * a ** power) +
        integral(rule, 4.6501, 43.6, (a) => brightness(shape, a) * a ** power);
      const discs = sunDiscs(shape);
      expectClose(
        discs.reduce((sum, { share }) => sum + share, 0),
        1,
        1e-12,
      );
      // Mean square of the angle over an even disc is half the square of its radius.
      const square = discs.reduce(
        (sum, { share, halfAngle_rad: a }) => sum + (share * (1000 * a) ** 2) / 2,
        0,
      );
      expect(Math.abs(square / (moment(3) / moment(1)) - 1), shape).toBeLessThan(0.005);
    }
  });
});

describe("normal distribution", () => {
  // Abramowitz & Stegun table 26.1.
  it("gives the tabled values", () => {
    expectPrinted(normalShare(1), "0.841344746068543");
    expectPrinted(normalShare(2), "0.977249868051821");
    expectPrinted(normalShare(-3), "0.00134989803163");
  });

  it("joins an even spread with a normal error, each alone in the limit", () => {
    expectClose(blurredUniform(-1, 0.5, 2, 0), 1.5 / 4, 1e-15);
    expectClose(blurredUniform(-1, 1, 1e-9, 1), 0.6826894921, 1e-9);
    expectClose(blurredUniform(-1, 1, 1e-4, 1), 0.6826894921, 1e-7);
    expect(blurredUniform(1, -1, 1, 1)).toBe(0);
  });
});

type Vector = [number, number, number];

/** One ray through an aperture of unit focal length; axis z, mirror z = r²/4 (trough: along x, axis y). */
function traced(c: ShapeOptics, random: RandomStream): boolean {
  const edge = 2 * Math.tan((c.rimAngle_deg * radians) / 2);
  const spread = (mrad: number) => (random.normal() * mrad) / 1000;
  let x = edge * (2 * random.uniform() - 1);
  let y = 0;
  if (c.shape === "dish") {
    do {
      x = edge * (2 * random.uniform() - 1);
      y = edge * (2 * random.uniform() - 1);
    } while (x * x + y * y > edge * edge);
  }
  const outer = c.sunShape === "hazy" ? 43.6 : 4.65;
  let sx = 0;
  let sy = 0;
  do {
    sx = outer * (2 * random.uniform() - 1);
    sy = outer * (2 * random.uniform() - 1);
  } while (random.uniform() > brightness(c.sunShape, Math.hypot(sx, sy)));
  const tracking: Vector = [
    spread(c.trackingError_mrad),
    c.shape === "dish" ? spread(c.trackingError_mrad) : 0,
    0,
  ];
  const incoming = unit([sx / 1000 + tracking[0], sy / 1000 + tracking[1], -1]);
  const ideal = unit([-x / 2, -y / 2, 1]);
  const normal = tilted(ideal, spread(c.slopeError_mrad), spread(c.slopeError_mrad));
  const along = 2 * dot(incoming, normal);
  const mirrored = unit([
    incoming[0] - along * normal[0],
    incoming[1] - along * normal[1],
    incoming[2] - along * normal[2],
  ]);
  const ray = tilted(mirrored, spread(c.specularity_mrad), spread(c.specularity_mrad));
  const from: Vector = [x, y, (x * x + y * y) / 4 - 1];
  if (c.shape === "trough") {
    const flat = Math.hypot(ray[0], ray[2]);
    const ahead = -(from[0] * ray[0] + from[2] * ray[2]);
    const miss = Math.abs(from[0] * ray[2] - from[2] * ray[0]) / flat;
    return ahead > 0 && miss <= edge / (Math.PI * c.concentration);
  }
  // The disc faces the mirror: only rays that come from below meet it.
  if (!(from[2] < 0 && ray[2] > 0)) return false;
  const way = -from[2] / ray[2];
  return Math.hypot(from[0] + way * ray[0], from[1] + way * ray[1]) <= edge / Math.sqrt(c.concentration);
}

function dot(a: Vector, b: Vector): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

function unit(v: Vector): Vector {
  const size = Math.sqrt(dot(v, v));
  return [v[0] / size, v[1] / size, v[2] / size];
}

/** A direction turned by small angles about two axes square to it. */
function tilted(v: Vector, first: number, second: number): Vector {
  const side = Math.abs(v[1]) < 0.9 ? unit([v[2], 0, -v[0]]) : unit([0, -v[2], v[1]]);
  const other: Vector = [
    v[1] * side[2] - v[2] * side[1],
    v[2] * side[0] - v[0] * side[2],
    v[0] * side[1] - v[1] * side[0],
  ];
  return unit([
    v[0] + first * side[0] + second * other[0],
    v[1] + first * side[1] + second * other[1],
    v[2] + first * side[2] + second * other[2],
  ]);
}
