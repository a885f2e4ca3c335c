/**
 * All formulas, family by family, in the order of a job. Adding one touches its family's file and the family's line here.
 *
 * A family is read when one of its formulas is first called: most notes call few of them, and a note that calculates with
 * plain arithmetic reads none. That is why each line names what its family holds; a test holds the two together.
 */
import type { Formula } from './formula';

/** Bundles and tests resolve this at build time; what is required is run at the first call and not before. */
declare const require: (id: string) => unknown;

interface Family {
  readonly formulas: readonly string[];
  load(): readonly Formula[];
}

const FAMILIES: readonly Family[] = [
  {
    formulas: ['ball_on_shank', 'ball_between_necks'],
    load: () => (require('./ball') as typeof import('./ball')).BALL_FORMULAS,
  },
  {
    formulas: ['ball_from_ring', 'ball_height', 'knee_raise'],
    load: () => (require('./ball-knee') as typeof import('./ball-knee')).KNEE_FORMULAS,
  },
  {
    formulas: ['first_touch'],
    load: () => (require('./ball-touch') as typeof import('./ball-touch')).TOUCH_FORMULAS,
  },
  {
    formulas: ['knee_schedule', 'half_raise', 'knee_dial'],
    load: () => (require('./ball-passes') as typeof import('./ball-passes')).PASS_FORMULAS,
  },
  {
    formulas: ['ball_setup_result'],
    load: () => (require('./ball-result') as typeof import('./ball-result')).RESULT_FORMULAS,
  },
  {
    formulas: ['corner_chamfer'],
    load: () => (require('./ball-blank') as typeof import('./ball-blank')).BLANK_FORMULAS,
  },
  {
    formulas: ['chamfer_steps', 'ball_stock', 'ball_blank_length'],
    load: () => (require('./ball-rough') as typeof import('./ball-rough')).ROUGH_FORMULAS,
  },
  {
    formulas: ['roundness_from_offset'],
    load: () => (require('./ball-roundness') as typeof import('./ball-roundness')).ROUNDNESS_FORMULAS,
  },
  {
    formulas: ['ball_sensitivity', 'end_left_at'],
    load: () => (require('./ball-sensitivity') as typeof import('./ball-sensitivity')).SENSITIVITY_FORMULAS,
  },
  {
    formulas: ['ball_over_reach', 'fillet_from_neck', 'explain_tilt'],
    load: () => (require('./ball-doubt') as typeof import('./ball-doubt')).DOUBT_FORMULAS,
  },
  {
    formulas: ['trial_boss'],
    load: () => (require('./ball-boss') as typeof import('./ball-boss')).BOSS_FORMULAS,
  },
  {
    formulas: ['clearance_under_ring', 'hollow_depth', 'cone_behind_neck'],
    load: () => (require('./ball-clearance') as typeof import('./ball-clearance')).CLEARANCE_FORMULAS,
  },
  {
    formulas: ['ball_work_feed', 'ball_centre_from_end'],
    load: () => (require('./ball-feed') as typeof import('./ball-feed')).FEED_FORMULAS,
  },
  {
    formulas: ['ball_seat'],
    load: () => (require('./ball-seat') as typeof import('./ball-seat')).SEAT_FORMULAS,
  },
  {
    formulas: ['ball_steps_by_angle', 'ball_steps_by_travel'],
    load: () => (require('./ball-turning') as typeof import('./ball-turning')).TURNING_FORMULAS,
  },
  {
    formulas: ['sine_rise', 'indicator_rise', 'arc_length'],
    load: () => (require('./setup') as typeof import('./setup')).SETUP_FORMULAS,
  },
  {
    formulas: ['edge_from_touch', 'middle_of_touches'],
    load: () => (require('./probing') as typeof import('./probing')).PROBING_FORMULAS,
  },
  {
    formulas: ['circle_from_touches'],
    load: () => (require('./probing-circle') as typeof import('./probing-circle')).PROBING_CIRCLE_FORMULAS,
  },
  {
    formulas: ['bolt_circle', 'bolt_arc'],
    load: () => (require('./hole-patterns') as typeof import('./hole-patterns')).PATTERN_FORMULAS,
  },
  {
    formulas: ['hole_grid'],
    load: () => (require('./hole-grid') as typeof import('./hole-grid')).GRID_FORMULAS,
  },
  {
    formulas: ['screw_move', 'dial_list', 'backlash'],
    load: () => (require('./screws') as typeof import('./screws')).SCREW_FORMULAS,
  },
  {
    formulas: ['boring_head_setting', 'boring_head_dial', 'boring_bar_setting', 'tool_facing'],
    load: () => (require('./boring-head') as typeof import('./boring-head')).HEAD_FORMULAS,
  },
  {
    formulas: ['boring_head_speed', 'head_speed_limit'],
    load: () => (require('./boring-speed') as typeof import('./boring-speed')).BORING_SPEED_FORMULAS,
  },
  {
    formulas: ['plain_indexing', 'angular_indexing'],
    load: () => (require('./indexing') as typeof import('./indexing')).INDEXING_FORMULAS,
  },
  {
    formulas: ['differential_indexing'],
    load: () =>
      (require('./indexing-differential') as typeof import('./indexing-differential')).DIFFERENTIAL_FORMULAS,
  },
  {
    formulas: ['compound_indexing'],
    load: () => (require('./indexing-compound') as typeof import('./indexing-compound')).COMPOUND_FORMULAS,
  },
  {
    formulas: ['compound_moves'],
    load: () =>
      (require('./indexing-compound-moves') as typeof import('./indexing-compound-moves'))
        .COMPOUND_MOVES_FORMULAS,
  },
  {
    formulas: ['indexing_moves'],
    load: () => (require('./indexing-moves') as typeof import('./indexing-moves')).MOVES_FORMULAS,
  },
  {
    formulas: ['division_chord', 'hole_step'],
    load: () => (require('./indexing-spacing') as typeof import('./indexing-spacing')).SPACING_FORMULAS,
  },
  {
    formulas: ['spindle_speed', 'cutting_speed', 'speed_step'],
    load: () => (require('./speeds') as typeof import('./speeds')).SPEED_FORMULAS,
  },
  {
    formulas: ['feed_rate', 'table_feed', 'cutting_time', 'theoretical_roughness'],
    load: () => (require('./cutting') as typeof import('./cutting')).CUTTING_FORMULAS,
  },
  {
    formulas: ['feed_for_rt', 'feed_for_ra'],
    load: () => (require('./finish') as typeof import('./finish')).FINISH_FORMULAS,
  },
  {
    formulas: ['chip_thinning', 'effective_diameter'],
    load: () => (require('./chip-thickness') as typeof import('./chip-thickness')).CHIP_FORMULAS,
  },
  {
    formulas: ['cutting_force'],
    load: () => (require('./cutting-force') as typeof import('./cutting-force')).FORCE_FORMULAS,
  },
  {
    formulas: ['cutting_power', 'cutting_torque'],
    load: () => (require('./cutting-power') as typeof import('./cutting-power')).POWER_FORMULAS,
  },
  {
    formulas: ['turning_removal', 'milling_removal', 'drilling_removal', 'cutting_passes'],
    load: () => (require('./removal') as typeof import('./removal')).REMOVAL_FORMULAS,
  },
  {
    formulas: ['drilling_start', 'reaming_start'],
    load: () => (require('./starting-feeds') as typeof import('./starting-feeds')).STARTING_FORMULAS,
  },
  {
    formulas: ['tapping_start', 'tapping_feed'],
    load: () => (require('./starting-taps') as typeof import('./starting-taps')).TAPPING_FORMULAS,
  },
  {
    formulas: ['interrupted_speed'],
    load: () => (require('./interrupted') as typeof import('./interrupted')).INTERRUPTED_FORMULAS,
  },
  {
    formulas: ['deflection_in_chuck', 'deflection_with_centre', 'deflection_between_centres'],
    load: () => (require('./support') as typeof import('./support')).SUPPORT_FORMULAS,
  },
  {
    formulas: ['support_compared', 'longest_overhang'],
    load: () => (require('./support-choice') as typeof import('./support-choice')).SUPPORT_CHOICE_FORMULAS,
  },
  {
    formulas: ['taper', 'taper_callout', 'taper_end', 'taper_length'],
    load: () => (require('./taper-callout') as typeof import('./taper-callout')).TAPER_FORMULAS,
  },
  {
    formulas: ['morse_taper'],
    load: () => (require('./taper-morse') as typeof import('./taper-morse')).MORSE_FORMULAS,
  },
  {
    formulas: ['tailstock_setover', 'compound_slide', 'cross_slide', 'sine_bar'],
    load: () => (require('./taper-setting') as typeof import('./taper-setting')).TAPER_SETTING_FORMULAS,
  },
  {
    formulas: ['taper_over_rollers', 'taper_over_balls', 'gauge_stand_off'],
    load: () => (require('./taper-measuring') as typeof import('./taper-measuring')).TAPER_MEASURING_FORMULAS,
  },
  {
    formulas: ['taper_found', 'tailstock_correction', 'taper_rescue'],
    load: () => (require('./taper-found') as typeof import('./taper-found')).TAPER_FOUND_FORMULAS,
  },
  {
    formulas: ['segment_height', 'flat_width', 'keyway', 'chord_length', 'radius_from_chord'],
    load: () => (require('./shop-geometry') as typeof import('./shop-geometry')).SHOP_GEOMETRY_FORMULAS,
  },
  {
    formulas: ['across_corners', 'largest_flats', 'dovetail_pins'],
    load: () => (require('./flats') as typeof import('./flats')).FLATS_FORMULAS,
  },
  {
    formulas: ['gear_blank', 'gear_blank_by_pitch'],
    load: () => (require('./gear-blank') as typeof import('./gear-blank')).GEAR_FORMULAS,
  },
  {
    formulas: ['fit', 'iso_limits'],
    load: () => (require('./fits') as typeof import('./fits')).FIT_FORMULAS,
  },
  {
    formulas: ['thermal_growth', 'size_at_reference', 'clearance_when_warm'],
    load: () => (require('./thermal') as typeof import('./thermal')).THERMAL_FORMULAS,
  },
  {
    formulas: ['heat_to_assemble', 'cool_to_assemble'],
    load: () => (require('./shrink') as typeof import('./shrink')).SHRINK_FORMULAS,
  },
  {
    formulas: ['shrink_grip'],
    load: () => (require('./shrink-grip') as typeof import('./shrink-grip')).SHRINK_GRIP_FORMULAS,
  },
  {
    formulas: ['drill_size', 'drill_point_depth'],
    load: () => (require('./drills') as typeof import('./drills')).DRILL_FORMULAS,
  },
  {
    formulas: ['centre_drill'],
    load: () => (require('./centre-drill') as typeof import('./centre-drill')).CENTRE_DRILL_FORMULAS,
  },
  {
    formulas: ['clearance_hole', 'counterbore', 'reaming_allowance'],
    load: () => (require('./screw-holes') as typeof import('./screw-holes')).SCREW_HOLE_FORMULAS,
  },
  {
    formulas: ['thread_sizes', 'thread_infeed', 'lead_angle'],
    load: () => (require('./threads') as typeof import('./threads')).THREAD_FORMULAS,
  },
  {
    formulas: ['screw_limits', 'nut_limits'],
    load: () => (require('./thread-limits') as typeof import('./thread-limits')).THREAD_LIMIT_FORMULAS,
  },
  {
    formulas: ['tap_drill', 'thread_percent', 'drill_for_thread'],
    load: () => (require('./thread-drill') as typeof import('./thread-drill')).TAP_DRILL_FORMULAS,
  },
  {
    formulas: ['best_wire', 'over_wires', 'pitch_diameter_of', 'screw_over_wires'],
    load: () => (require('./thread-wires') as typeof import('./thread-wires')).WIRE_FORMULAS,
  },
  {
    formulas: ['thread_gears'],
    load: () => (require('./change-gears') as typeof import('./change-gears')).CHANGE_GEAR_FORMULAS,
  },
  {
    formulas: ['nearest_fraction'],
    load: () => (require('./fraction') as typeof import('./fraction')).FRACTION_FORMULAS,
  },
  {
    formulas: ['likely_size'],
    load: () => (require('./worn') as typeof import('./worn')).WORN_FORMULAS,
  },
  {
    formulas: ['blank_size', 'bar_mass', 'price_by_mass', 'price_by_length'],
    load: () => (require('./stock') as typeof import('./stock')).STOCK_FORMULAS,
  },
  {
    formulas: ['pieces_from_bar', 'cut_list'],
    load: () => (require('./saw') as typeof import('./saw')).SAW_FORMULAS,
  },
  {
    formulas: ['operation_time', 'crank_time', 'operation_cost', 'markup_and_margin'],
    load: () => (require('./price') as typeof import('./price')).PRICE_FORMULAS,
  },
  {
    formulas: ['quotation'],
    load: () => (require('./quotation') as typeof import('./quotation')).QUOTATION_FORMULAS,
  },
  {
    formulas: ['hardness_conversion', 'strength_from_hardness'],
    load: () => (require('./hardness') as typeof import('./hardness')).HARDNESS_FORMULAS,
  },
  {
    formulas: ['shaft_power', 'shaft_torque'],
    load: () => (require('./mechanics') as typeof import('./mechanics')).MECHANICS_FORMULAS,
  },
];

/** Names of all formulas, in the order of a job; reads none of them. */
export const FORMULA_NAMES: readonly string[] = FAMILIES.flatMap(({ formulas }) => formulas);

const familyOf = new Map(
  FAMILIES.flatMap((family) => family.formulas.map((name) => [name, family] as const)),
);
const read = new Map<string, Formula>();

export function formulaNamed(name: string): Formula | undefined {
  if (!read.has(name))
    for (const formula of familyOf.get(name)?.load() ?? []) read.set(formula.name, formula);
  return read.get(name);
}

/** Every formula, for listings and tests: reads them all. */
export function allFormulas(): readonly Formula[] {
  return FAMILIES.flatMap((family) => family.load());
}
