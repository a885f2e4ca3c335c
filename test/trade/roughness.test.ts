/** The finish of a turned surface against the area under the true arc of the nose. */
import { describe, expect, it } from 'vitest';
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

describe('the largest feed', () => {
  it.each([
    [0.02, 1.2],
    [0.2, 0.8],
    [0.6, 0.4],
  ])('for the height that %f mm/rev leaves under a nose of %f mm is that feed', (feed, nose_radius) => {
    const { rt } = scallop(feed, nose_radius);
    expect(number('feed_for_rt', { rt, nose_radius }) / feed).toBeCloseTo(1, 6);
  });

  it.each([
    [0.02, 1.2, 1e-4],
    [0.05, 3, 1e-4],
    // A coarse feed for its nose, where the parabola begins to differ from the arc.
    [0.4, 0.8, 0.01],
  ])(
    'for the mean height that %f mm/rev leaves under a nose of %f mm is within %f of it',
    (feed, nose, slack) => {
      const { ra } = scallop(feed, nose);
      expect(Math.abs(number('feed_for_ra', { ra, nose_radius: nose }) / feed - 1)).toBeLessThan(slack);
    },
  );
});
