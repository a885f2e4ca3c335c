/** The passes to the knee: the ball's diameter against how far the knee has gone up. */
import { at, dot, line, path, svg, text } from './draw';
import { type Figures, amounts, items } from './figures';

export function kneePasses(figures: Figures): string | null {
  const { ring, ball, height, travel } = amounts(figures, ['ring', 'ball'], ['height', 'travel']);
  const [raised, balls] = [items(figures, 'raised'), items(figures, 'balls')];
  const last = raised.at(-1);
  if (!last) return null;
  const ballAt = (raise: number): number => 2 * Math.hypot(ring.value / 2, height.value - raise);
  const [left, right, top, bottom] = [64, 440, 18, 210];
  const [most, least] = [ballAt(0), Math.min(ball.value, ...balls.map(({ value }) => value))];
  const x = (raise: number): number => left + ((right - left) * raise) / travel.value;
  const y = (size: number): number => bottom - 14 - ((bottom - 14 - top) * (size - least)) / (most - least);
  const curve = Array.from({ length: 41 }, (_, i) => (i / 40) * travel.value);
  const points = raised.map((raise, i) => at(x(raise.value), y(balls[i]?.value ?? 0)));
  const step = Math.ceil(raised.length / 6);
  const labelled = (i: number): boolean =>
    i === raised.length - 1 || (i % step === 0 && right - (points[i]?.x ?? right) > 46);
  return svg(
    {
      width: 500,
      height: 258,
      says: `${raised.length} raises of the knee, ${travel.shown} in all, bring the ball from ${figures.show({ ...last, value: most })} at first touch to ${ball.shown}.`,
    },
    line(at(left, bottom), at(right + 16, bottom), 'thin'),
    line(at(left, bottom), at(left, top - 8), 'thin'),
    line(at(left, y(ball.value)), at(right + 16, y(ball.value)), 'centre', 'to-size'),
    path(
      curve.map((raise) => at(x(raise), y(ballAt(raise)))),
      'outline',
      'curve',
    ),
    ...points.flatMap((p, i) => [
      line(p, at(p.x, bottom), 'thin'),
      dot(p, 3, 'pass'),
      labelled(i) ? text(at(p.x, bottom + 14), shortened(figures.show(raised[i] ?? last))) : '',
      labelled(i) && i < points.length - 1
        ? text(at(p.x + 7, p.y - 5), shortened(figures.show(balls[i] ?? last)), 'start')
        : '',
    ]),
    text(at(left - 6, y(most) + 4), shortened(figures.show({ ...last, value: most })), 'end'),
    text(at(left - 6, y(ball.value) + 4), shortened(ball.shown), 'end'),
    text(at((left + right) / 2, bottom + 34), `knee raised from first touch, ${unitOf(travel.shown)}`),
    text(at(16, (top + bottom) / 2), `ball, ${unitOf(ball.shown)}`, 'middle', -90),
  );
}

/** The number of a shown quantity; its unit stands at the axis. */
function shortened(shown: string): string {
  return shown.split(' ')[0] ?? shown;
}

function unitOf(shown: string): string {
  return shown.split(' ').slice(1).join(' ');
}
