/** The finish of a turned surface against the area under the true arc of the nose. */
import { expect, it } from 'vitest';
import { number } from './given';

/** Mean and peak height of the scallop of one feed, in µm, by the midpoint rule. */
function scallop(feed: number, nose: number): { rt: number; ra: number } {
  const count = 20_000;
  const depth = (x: number): number => (x * x) / (nose + Math.sqrt(nose * nose - x * x));
  const heights = Array.from({ length: count }, (_, i) => depth(((i + 0.5) / count - 0.5) * feed));
  const mean = heights.reduce((a, b) => a + b) / count;
  const away = heights.reduce((sum, h) => sum + Math.abs(h - mean), 0) / count;
  return { rt: depth(feed / 2) * 1000, ra: away * 1000 };
}

it.each([
  [0.02, 1.2],
  [0.05, 3],
])('%f mm/rev with a nose of %f mm', (feed_per_rev, nose_radius) => {
  const arc = scallop(feed_per_rev, nose_radius);
  const [rt, ra] = ['rt', 'ra'].map((f) => number('theoretical_roughness', { feed_per_rev, nose_radius }, f));
  expect((rt ?? 0) / arc.rt).toBeCloseTo(1, 7);
  // The parabola stands for the arc: at these feeds it is within a few parts in a hundred thousand.
  expect(Math.abs((ra ?? 0) / arc.ra - 1)).toBeLessThan(1e-4);
});
