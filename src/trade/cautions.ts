/**
 * The usual cautions by operation. They remind; they do not replace the machine's manual, local law and codes, or
 * qualified practice. A formula names the keys that its operation calls for.
 */
export const CAUTIONS: ReadonlyMap<string, readonly string[]> = new Map([
  [
    'general',
    [
      'Safety glasses on before the switch. Sleeves rolled or tight, no gloves, rings, watch, tie or loose hair near anything that turns. Stop the spindle before you measure, clear chips or reach across. Lock out and unplug before working inside a machine.',
      "These texts remind; they do not replace the machine's manual, local law and codes, or training by a licensed or qualified practitioner. Where they differ, follow those.",
    ],
  ],
  [
    'speeds',
    [
      'Suggested speeds and feeds are cautious starting points for sharp tools and solid set-ups. Listen, look at the chip, and change one thing at a time. Never exceed the marked limit of a chuck, wheel or cutter.',
    ],
  ],
  [
    'ball_on_mill',
    [
      'Clamp the dividing head and lock the tilt with every bolt it has; check that it has not crept after the first pass. The work hangs out at an angle: keep the overhang short and the chuck jaws fully on the stock.',
      'Turn the work slowly by the crank against the cut; keep the plate pin out and the spindle clamp off while turning, and clamp it again before touching the knee. Never climb: the cutter can snatch the work round through the worm backlash.',
      'First passes cut only on the corners of the blank, so the cut is interrupted: small knee steps, lower speed, tough grade or HSS. Chamfer the corners first.',
      'Before power: bring the ring down by hand at final height and turn both spindle and work a full turn. Check boring-head body, tool heel, chuck, shoulder and table for clearance all the way round.',
    ],
  ],
  [
    'by_hand_first',
    [
      'Power off: turn cutter and work a full turn by hand, once at first touch and once at the finished height.',
    ],
  ],
  [
    'knee',
    [
      'Lock quill, table and saddle before the first cut, and the knee after each raise.',
      'Raise only with the spindle of the dividing head clamped; then release it and crank against the cut.',
    ],
  ],
  ['crank', ['Keep the sleeve and the hand on the crank out of the circle of the cutter.']],
  [
    'measuring',
    [
      'Stop the spindle and wind clear before measuring; come back past the backlash to the same reading of the dial.',
    ],
  ],
  [
    'probing',
    [
      'A touch probe never turns: lock the spindle before it goes in. An edge finder turns at no more than its marked speed. Go the last of the way by hand.',
    ],
  ],
  [
    'hardness',
    [
      'A converted hardness or strength is a guide: never accept or refuse a part, or load one, by it. ISO 18265 itself warns so. Test in the scale that the drawing asks for.',
    ],
  ],
  [
    'boring_head',
    [
      'A boring head or chuck that is screwed onto its spindle can unscrew when the spindle runs backwards or is braked hard. Do not run it in reverse unless the joint is keyed or locked. Tighten gib and bar screws; keep the head balanced and the speed down when the slide is far off centre.',
      'An inward-facing tool may need reversed rotation or a tool ground to face the other way: check which edge leads before starting.',
      'A boring head held by its thread alone can unscrew in reverse: use a keyed or locked one, or stop.',
    ],
  ],
  [
    'lathe',
    [
      'A chuck screwed on a spindle nose can come off in reverse or under braking. Take the key out of the chuck every time. Check that jaws clear the bed, slide and guard by turning by hand.',
    ],
  ],
  [
    'change_gears',
    [
      'Switch the lathe off at the isolator before the gear cover is opened, and close it before the first turn. Turn the spindle by hand once: gears must run free with a little play. Try the lead with a scratch and a rule before cutting.',
    ],
  ],
  [
    'slender_work',
    [
      'Work standing out more than about three diameters needs a centre; much longer needs a steady. Unsupported bar behind the headstock must be covered and supported: it can bend and whip without warning.',
    ],
  ],
  [
    'between_centres',
    ['Fix the dog or driver, grease a plain centre, and recheck the pressure as the work warms and grows.'],
  ],
  [
    'filing',
    [
      'File left-handed so that your arm is not over the chuck; a file always has a handle. Use strips of abrasive cloth held by the ends, never wrapped round the finger, and keep the speed low.',
    ],
  ],
  [
    'swarf',
    [
      'Long chips cut like knives and pull. Hook or brush, spindle stopped, never by hand or with air toward people. Break the chip with feed or depth.',
    ],
  ],
  [
    'interrupted_cut',
    [
      'Expect knocks: tighter clamping, shorter overhang, lower speed, honed edge. Stand out of the plane of the cutter.',
    ],
  ],
  [
    'parting',
    [
      'Tool square and on centre, stiff and short, steady feed, coolant or oil. If it chatters stop, do not push.',
    ],
  ],
  [
    'drilling',
    [
      'Clamp the work; break-through grabs. Back a tap off the chip, ease off near the bottom of a blind hole. Rigid tapping only with a machine made for it.',
    ],
  ],
  [
    'breaking_through',
    [
      'Drills grab: clamp the work or hold it in a vice bolted down, never in the hand, and ease the feed before the point breaks through. Brass, bronze and plastics pull an ordinary drill in: take the edge off its lips. Thin sheet climbs the drill and cuts: clamp it between wood, or use a step drill.',
    ],
  ],
  [
    'indexing',
    [
      'Take up backlash in one direction only. Set the sector arms, count the first hole as zero, and make one light scribe round the whole circle before cutting.',
    ],
  ],
  [
    'differential',
    [
      'Try the direction before cutting: power off, turn the work by the crank for one full turn and see that the plate goes the way it should and that the pin drops in the hole foreseen. Put in or take out an idler when it does not.',
      'Take the lock of the plate out, or the gears bind. Keep fingers and sleeve out of the change gears while cranking, and put their cover back.',
    ],
  ],
  [
    'compound',
    [
      'Move in one direction only, and go past and come back where a move is backwards. Draw only one pin at a time: with both out the work turns free under the cutter.',
    ],
  ],
  [
    'fits_and_heat',
    [
      'Shrink and press fits hold by stress: use eye protection, press square, and allow the parts to come to 20 degC before measuring.',
    ],
  ],
  [
    'hot_and_cold',
    [
      'Heat in an oven, oil bath or induction heater made for it, never with an open flame near oil; heat-proof gloves, nothing that burns close by. Dry ice and liquid nitrogen burn the skin and push out the air: gloves, face shield, an open door, and never a closed vessel.',
    ],
  ],
  [
    'materials',
    [
      'Magnesium and fine titanium chips burn; beryllium copper and some leaded alloys give harmful dust. Look up the data sheet of the material and of the coolant.',
    ],
  ],
  [
    'heavy_stock',
    ['Weights are computed from nominal density. Lift with help or gear rated well above the figure.'],
  ],
  ['saw', ['Support the offcut so that it cannot fall or pinch. Adjust guards and blade with power off.']],
] as const);

/** The texts for these keys, in order. */
export function cautionsFor(keys: readonly string[]): readonly string[] {
  return keys.flatMap((key) => CAUTIONS.get(key) ?? []);
}
