/** The set-up for a ball: from the side, and below it as seen along the spindle of the cutter (first angle). */
import {
  FONT,
  angle,
  arc,
  at,
  circle,
  diameter,
  dimension,
  hatch,
  line,
  path,
  polar,
  solid,
  svg,
  text,
} from './draw';
import { type Figures, amounts } from './figures';

/** Of the ball on the picture. */
const DIAMETER = 150;

export function ballSetup(figures: Figures): string {
  const { ball, neck, tilt, ring, height } = amounts(figures, ['ball', 'neck'], ['tilt', 'ring', 'height']);
  const scale = DIAMETER / ball.value;
  const [radius, half, thick] = [DIAMETER / 2, (ring.value * scale) / 2, (neck.value * scale) / 2];
  const c = at(286, 176);
  const level = c.y - height.value * scale;
  const axis = 180 + tilt.value;
  const joint = Math.sqrt(radius * radius - thick * thick);
  const side = (along: number, across: number): ReturnType<typeof at> =>
    polar(polar(c, along, axis), across, axis + 90);
  const shank = [side(joint, thick), side(190, thick), side(190, -thick), side(joint, -thick)];
  const [one, two, three, four] = shank as [typeof c, typeof c, typeof c, typeof c];
  const half_angle = (Math.asin(thick / radius) * 180) / Math.PI;
  const tips = [at(c.x - half, level), at(c.x + half, level)] as const;
  const tool = (tip: typeof c, out: number): string =>
    path([tip, at(tip.x + out * 15, tip.y - 7), at(tip.x + out * 15, tip.y - 46)], 'phantom') +
    path([tip, at(tip.x + out * 7, tip.y - 12), at(tip.x + out * 7, tip.y - 46)], 'phantom') +
    solid([tip, at(tip.x + out * 9, tip.y - 4), at(tip.x + out * 5, tip.y - 8)]);
  // Of a thin neck the arrows stand outside.
  const clear = thick < 12 ? 22 : 8;
  const [foot, neckWords] = [side(128, thick), `neck Ø${neck.shown}`];
  /** Beneath the shank's edge, which slopes, over half of the words. */
  const beneath = clear + 6 + neckWords.length * FONT * 0.29 * Math.tan((tilt.value * Math.PI) / 180);
  // Clear of the shank, however thick and steep it is.
  const below = at(c.x, Math.max(378, side(190, thick).y + 30 + radius));
  const flat = thick;
  const reach = joint * Math.cos((tilt.value * Math.PI) / 180);
  return svg(
    {
      width: 540,
      height: below.y + 102,
      scale,
      says:
        `Ball of ${ball.shown} on a neck of ${neck.shown}, seen from the side: the work is tilted ${tilt.shown}, free end up. ` +
        `The tip of the cutter runs on a level ring of ${ring.shown}, ${height.shown} above the centre of the ball, from the free end to the neck. The shank stays uncut. ` +
        'Below, the same along the spindle.',
    },
    // The work.
    hatch(shank),
    arc(c, radius, axis + half_angle, axis + 360 - half_angle, 'outline', 'ball'),
    line(one, two, 'outline', 'neck-a'),
    line(four, three, 'outline', 'neck-b'),
    path([two, side(184, thick / 3), side(196, -thick / 3), three], 'thin'),
    line(polar(c, radius + 34, axis + 180), polar(c, 236, axis), 'centre', 'axis'),
    line(at(c.x, c.y - radius - 40), at(c.x, c.y + radius + 16), 'centre'),
    line(at(c.x - 242, c.y), at(c.x + radius + 62, c.y), 'centre'),
    // The cutter.
    line(tips[0], tips[1], 'cut', 'ring'),
    tool(tips[0], -1),
    tool(tips[1], 1),
    // What it measures.
    dimension(tips[0], tips[1], level - (c.y - radius - 62), `ring Ø${ring.shown}`, 'ring-size'),
    dimension(at(c.x + radius + 2, level), at(c.x + radius + 2, c.y), 46, `height ${height.shown}`, 'height'),
    diameter(c, radius, -52, `ball Ø${ball.shown}`, 'ball-size'),
    angle(c, 214, 180, axis, ''),
    text(at(c.x - 266, polar(c, 236, axis).y + 20), `tilt ${tilt.shown}`, 'start'),
    dimension(side(128, thick), side(128, -thick), 0, '', 'neck-size'),
    text(at(foot.x, foot.y + beneath), neckWords),
    text(side(146, -thick - clear), 'stays uncut', 'middle', -tilt.value),
    // Along the spindle.
    hatch([
      at(below.x - reach, below.y - flat),
      at(below.x - 186, below.y - flat),
      at(below.x - 186, below.y + flat),
      at(below.x - reach, below.y + flat),
    ]),
    circle(below, radius, 'outline'),
    line(at(below.x - reach, below.y - flat), at(below.x - 186, below.y - flat), 'outline'),
    line(at(below.x - reach, below.y + flat), at(below.x - 186, below.y + flat), 'outline'),
    circle(below, half, 'cut', 'ring-from-above'),
    line(at(below.x - 198, below.y), at(below.x + radius + 22, below.y), 'centre'),
    line(at(below.x, below.y - radius - 12), at(below.x, below.y + radius + 12), 'centre'),
    text(at(below.x + radius + 14, below.y - radius + 12), 'along the spindle', 'start'),
  );
}
