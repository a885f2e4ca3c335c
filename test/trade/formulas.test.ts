/** What every formula must bring, and its own worked checks. */
import { readFileSync, readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { MATHEMATICS } from '../../src/quantity/mathematics';
import { unit, unitNames } from '../../src/quantity/units';
import { FORMULA_NAMES, allFormulas, formulaNamed } from '../../src/trade';
import { CAUTIONS, cautionsFor } from '../../src/trade/cautions';
import { tradeFindings } from '../../src/trade/findings';
import { answer, broken, callOf, given } from './given';

/** Names the notation keeps for itself; a figure or field so called could not be reached. */
const KEPT = new Set([
  ...unitNames().filter((name) => name.length > 1),
  'to',
  'pi',
  'on',
  ...MATHEMATICS.keys(),
]);
/** Fields that readings and used values answer. */
const ANSWERED = ['reading', 'readings', 'positions', 'mean', 'used'];

describe.each(allFormulas().map((formula) => [formula.name, formula] as const))('%s', (_, formula) => {
  const names = [...formula.parameters, ...formula.result].map(({ name }) => name);

  it('is documented', () => {
    expect(formula.checks.length).toBeGreaterThanOrEqual(2);
    for (const text of [formula.title, formula.why, formula.source]) expect(text.length).toBeGreaterThan(10);
    for (const { meaning } of [...formula.parameters, ...formula.result])
      expect(meaning.length).toBeGreaterThan(3);
    for (const { source } of formula.checks) expect(source.length).toBeGreaterThan(10);
    for (const { range, parameter } of formula.conditions) {
      expect(range.length).toBeGreaterThan(10);
      if (parameter !== null) expect(names).toContain(parameter);
    }
  });

  it('has names that can be written', () => {
    expect(formulaNamed(formula.name)).toBe(formula);
    for (const name of [formula.name, ...names.filter((n) => n !== '')]) {
      expect(name).toMatch(/^[a-z][a-z_]*$/);
      expect(KEPT.has(name), name).toBe(false);
    }
    for (const { name } of formula.result) expect(ANSWERED).not.toContain(name);
    expect(new Set(formula.parameters.map((p) => p.name)).size).toBe(formula.parameters.length);
    const optional = formula.parameters.map((p) => p.optional === true);
    expect(optional).toEqual([...optional].sort());
  });

  it('has units that the notation reads', () => {
    const used = [...formula.parameters, ...formula.result].map((p) => p.unit).filter((text) => text !== '');
    for (const text of used) expect(unit(text).symbol).not.toBe('');
  });

  it('names cautions that exist', () => {
    expect(cautionsFor(formula.cautions).length).toBeGreaterThanOrEqual(formula.cautions.length);
    for (const key of formula.cautions) expect(CAUTIONS.has(key), key).toBe(true);
  });

  it.each(formula.checks.map((check) => [check.call, check] as const))('%s', (call, check) => {
    const { args } = callOf(call);
    expect(broken(formula, args)).toEqual([]);
    const result = answer(formula.name, args);
    expect(Object.keys(result).sort()).toEqual(formula.result.map((field) => field.name).sort());
    for (const { name, words, list } of formula.result)
      expect(typeof result[name]).toBe(words ? 'string' : list ? 'object' : 'number');
    for (const [field, expected] of Object.entries(check.expect)) {
      const value = result[field];
      if (typeof expected === 'string' || typeof value === 'string') {
        expect(value).toBe(expected);
        continue;
      }
      const [got, wanted] = [[value ?? NaN].flat(), [expected].flat()];
      expect(got.length, field).toBe(wanted.length);
      got.forEach((item, i) =>
        expect(Math.abs(item - (wanted[i] ?? NaN)), `${field} is ${item}`).toBeLessThanOrEqual(
          check.tolerance,
        ),
      );
    }
  });

  it.each(formula.checks.map(({ call }) => call))('has a working that ends in every figure of %s', (call) => {
    const steps = formula.working(given(callOf(call).args));
    const figures = formula.result.filter(({ words }) => !words).map(({ name }) => name);
    expect(steps.map(({ name }) => name)).toEqual(expect.arrayContaining(figures));
    expect(new Set(steps.map(({ name }) => name)).size).toBe(steps.length);
    const known = formula.parameters.map(({ name }) => name);
    for (const { name, words } of steps) {
      expect(words.length).toBeGreaterThan(5);
      // A step may bear a parameter's name only where it is also a result.
      if (known.includes(name)) expect(figures).toContain(name);
    }
  });
});

it('has each name once', () => {
  expect(new Set(allFormulas().map(({ name }) => name)).size).toBe(allFormulas().length);
  for (const name of ['constructor', 'toString', '__proto__', 'ball'])
    expect(formulaNamed(name)).toBeUndefined();
});

it('knows the names of each family without reading it', () => {
  expect(FORMULA_NAMES).toEqual(allFormulas().map(({ name }) => name));
  for (const name of FORMULA_NAMES) expect(formulaNamed(name)?.name).toBe(name);
});

it('lists every formula file', () => {
  const folder = new URL('../../src/trade/', import.meta.url);
  const index = readFileSync(new URL('index.ts', folder), 'utf8');
  const files = readdirSync(folder).filter((file) =>
    /FORMULAS: readonly/.test(readFileSync(new URL(file, folder), 'utf8')),
  );
  for (const file of files) if (file !== 'index.ts') expect(index).toContain(`./${file.replace('.ts', '')}'`);
});

it('has the names, parameters and fields that notes already rely on', () => {
  const signature = allFormulas().map(({ name, parameters, result }) => {
    const inside = parameters.map((p) => p.name + (p.optional ? '?' : '')).join(', ');
    return `${name}(${inside}) ${result.map((f) => `.${f.name}`).join(' ')}`;
  });
  expect(signature).toMatchInlineSnapshot(`
    [
      "ball_on_shank(ball, neck, fillet?, nose_radius?) .tilt .ring .height .neck_to_end",
      "ball_between_necks(ball, neck_free_side, neck_head_side) .tilt .ring .height",
      "ball_from_ring(ring, height, nose_radius?) .",
      "ball_height(ball, ring, nose_radius?) .",
      "knee_raise(measured_ball, wanted_ball, ring, nose_radius?) .",
      "first_touch(ball, ring, tilt, blank, end_to_centre, chamfer?, shoulder?) .height .travel .where",
      "knee_schedule(ball, ring, tilt, blank, end_to_centre, step, chamfer?, shoulder?, machine?) .height .travel .raises .raised .balls .dial",
      "half_raise(measured_ball, wanted_ball, ring, nose_radius?) .left .half .ball_after",
      "knee_dial(raise, machine) .turns .divisions",
      "ball_setup_result(ring, height, tilt, shank) .ball .neck .pip_base .pip_height .gouge .verdict",
      "corner_chamfer(ball, blank, end_to_centre, allowance) .",
      "chamfer_steps(ball, allowance, chamfers) .pitch .stock .angles .depths .diameters",
      "ball_stock(ball, neck, blank, extra?) .volume .removed .neck_to_end",
      "ball_blank_length(ball, neck, shank_length, grip, extra?) .",
      "roundness_from_offset(ball, neck, offset) .",
      "ball_sensitivity(ball, neck) .ball_by_raise .ball_by_ring .end_by_tilt .neck_by_tilt .end_by_ring .pip_by_ring .cone_by_ring",
      "end_left_at(ring, height, tilt, from_centre) .",
      "ball_over_reach(ball, neck, over_reach) .tilt .ring .height .end_height",
      "fillet_from_neck(ball, shank, neck) .",
      "explain_tilt(ball, shank, tilt, ring) .neck .fillet .right_ring .height .too_large .ball_when_clean .verdict",
      "trial_boss(boss, ball, neck, fillet?, nose_radius?) .wanted .move .height .end_foot",
      "clearance_under_ring(height, tilt, behind_centre, body) .clearance .largest_body .nearest",
      "hollow_depth(height, tilt, ball, blank, end_to_centre, chamfer?) .finished .uncut",
      "cone_behind_neck(ring, height, tilt, stock) .half_angle .neck .begins .ends",
      "ball_work_feed(ball, tilt, spindle_speed, crank_speed, head, nose_radius?) .feed .pass_time .cusp",
      "ball_centre_from_end(end_to_centre, tilt, blank, stylus, chamfer?) .",
      "ball_seat(ball, mouth, hole?) .tilt .ring .height .depth",
      "ball_steps_by_angle(ball, angle_step, nose_radius?) .steps .travels .dials .cusps .largest",
      "ball_steps_by_travel(ball, travel_step, nose_radius?) .steps .travels .dials .cusps .largest",
      "sine_rise(tilt, length) .",
      "indicator_rise(tilt, table_travel) .",
      "arc_length(radius, angle) .",
      "edge_from_touch(reading, stylus, moving) .",
      "middle_of_touches(first, second, stylus, sides) .middle .width",
      "circle_from_touches(x, y, stylus, shape) .centre_x .centre_y .diameter .out_of_round",
      "bolt_circle(diameter, holes, centre_x?, centre_y?, start?) .hole .angle .x .y .chord",
      "bolt_arc(diameter, holes, start, end, centre_x?, centre_y?) .hole .angle .x .y .chord",
      "hole_grid(columns, rows, pitch_x, pitch_y, first_x?, first_y?, turned?) .hole .x .y .diagonal",
      "screw_move(from, place, screw, machine) .turns .divisions .way .turn_at",
      "dial_list(places, from, screw, machine) .whole_turns .division",
      "backlash(coming_up, coming_down) .",
      "boring_head_setting(measured, wanted, tip_offset?) .slide .on_diameter",
      "boring_head_dial(measured, wanted, head) .divisions .one_division .way",
      "boring_bar_setting(wanted, tip_reach, cuts) .",
      "tool_facing(cuts, tool) .turning .faces .spindle .check",
      "boring_head_speed(cutting_speed, ring, head) .spindle_speed .tip_speed .set_by",
      "head_speed_limit(slide_mass, off_centre, stick_out, shank, swing) .spindle_speed .pull",
      "plain_indexing(divisions, head) .turns .holes .circle .sector_holes .others",
      "angular_indexing(angle, head) .turns .holes .circle .error",
      "differential_indexing(divisions, head, near_number?) .substitute .turns .holes .circle .sector_holes .drivers .driven .train .idlers .plate .simpler",
      "compound_indexing(divisions, head) .first_turns .first_holes .first_circle .second_holes .second_circle .simpler",
      "compound_moves(divisions, head) .cuts .crank_hole .plate_hole .crank_circle .plate_circle .end_check",
      "indexing_moves(divisions, head) .cuts .whole_turns .hole .turns .holes .circle .end_turns .end_hole .method .end_check",
      "division_chord(diameter, divisions, over?) .",
      "hole_step(diameter, circle, head) .angle .arc",
      "spindle_speed(cutting_speed, diameter) .",
      "cutting_speed(spindle_speed, diameter) .",
      "speed_step(spindle_speed, machine) .",
      "feed_rate(feed_per_rev, spindle_speed) .",
      "table_feed(feed_per_tooth, teeth, spindle_speed) .",
      "cutting_time(length, feed_rate) .",
      "theoretical_roughness(feed_per_rev, nose_radius) .rt .ra",
      "feed_for_rt(rt, nose_radius) .",
      "feed_for_ra(ra, nose_radius) .",
      "chip_thinning(cutter, width_of_cut, feed_per_tooth) .chip_thickness .corrected_feed",
      "effective_diameter(cutter, depth_of_cut, corner_radius?) .",
      "cutting_force(material, depth_of_cut, feed_per_rev, cutting_edge_angle) .chip_width .chip_thickness .specific_force .cutting_force .radial_force .radial_force_low .radial_force_high",
      "cutting_power(cutting_force, cutting_speed, efficiency?) .power .motor_power",
      "cutting_torque(cutting_force, diameter) .",
      "turning_removal(cutting_speed, depth_of_cut, feed_per_rev, diameter) .rate .usual_rate .excess",
      "milling_removal(width_of_cut, depth_of_cut, feed_rate) .",
      "drilling_removal(diameter, feed_per_rev, spindle_speed) .",
      "cutting_passes(stock, depth_of_cut) .passes .even_depth .last_depth",
      "drilling_start(diameter, material) .feed .feed_low .feed_high .cutting_speed .spindle_speed",
      "reaming_start(diameter, material) .hole_low .hole_high .feed .feed_low .feed_high .cutting_speed .spindle_speed",
      "tapping_start(diameter, pitch, material) .cutting_speed_low .cutting_speed_high .spindle_speed_low .spindle_speed_high .feed",
      "tapping_feed(pitch, spindle_speed) .",
      "interrupted_speed(cutting_speed, diameter) .cutting_speed_low .cutting_speed_high .spindle_speed_low .spindle_speed_high",
      "deflection_in_chuck(material, force, diameter, overhang, tool_at?) .deflection .oversize .worst_at .worst_oversize .form",
      "deflection_with_centre(material, force, diameter, free_length, tool_at?) .deflection .oversize .worst_at .worst_oversize .form",
      "deflection_between_centres(material, force, diameter, between_centres, tool_at?) .deflection .oversize .worst_at .worst_oversize .form",
      "support_compared(material, force, diameter, free_length) .advice .slenderness .in_chuck .with_centre .between_centres",
      "longest_overhang(material, force, diameter, allowed) .by_deflection .by_rule",
      "taper(large, small, taper_length) .half_angle .included_angle .per_metre .per_foot .one_in",
      "taper_callout(taper) .half_angle .included_angle .per_metre .per_foot .one_in",
      "taper_end(taper, diameter, distance) .smaller .larger",
      "taper_length(taper, large, small) .along_axis .along_flank",
      "morse_taper(number) .gauge_diameter .per_foot .one_in .half_angle",
      "tailstock_setover(large, small, taper_length, between_centres) .set_over .exact",
      "compound_slide(half_angle, machine) .setting .zero",
      "cross_slide(off_diameter, machine) .dial .travel .reads",
      "sine_bar(angle, centre_distance) .stack .per_hundredth",
      "taper_over_rollers(over_low, over_high, raised, roller) .half_angle .per_metre .small_end",
      "taper_over_balls(large_ball, large_depth, small_ball, small_depth) .half_angle .per_metre .mouth",
      "gauge_stand_off(taper, stand_off) .on_diameter .on_radius",
      "taper_found(sizes, places) .per_metre .over_places .at_zero .off_line .shape",
      "tailstock_correction(sizes, places, between_centres) .per_metre .shift .direction",
      "taper_rescue(sizes, smallest, largest) .over .spare .verdict",
      "segment_height(diameter, width) .height .over_flat",
      "flat_width(diameter, depth) .flat .over_flat",
      "keyway(shaft, key_width, key_depth, depth_from?) .over_bottom .crown .side_depth",
      "chord_length(diameter, angle) .across .rise",
      "radius_from_chord(chord, height) .radius .whole_diameter .arc",
      "across_corners(across_flats, sides) .corners .side .depth_per_flat",
      "largest_flats(stock, sides) .flats .depth_per_flat",
      "dovetail_pins(part, sharp_width, pin, flank_angle) .over_pins",
      "gear_blank(module, teeth) .pitch_diameter .blank .tooth_depth .root_diameter .tip_height .chordal_thickness",
      "gear_blank_by_pitch(diametral_pitch, teeth) .pitch_diameter .blank .tooth_depth .root_diameter .tip_height .chordal_thickness",
      "fit(size, hole, shaft) .hole_max .hole_min .shaft_max .shaft_min .clearance_max .clearance_min .middle .kind .zones .checked",
      "iso_limits(size, class) .upper .lower .largest .smallest .checked",
      "thermal_growth(size, temperature, material) .",
      "size_at_reference(size, temperature, material, gauge?) .true_size .growth",
      "clearance_when_warm(size, clearance, temperature, hole_material, shaft_material) .warm_clearance .change",
      "heat_to_assemble(size, interference, clearance, hub, shop_temperature?) .hub_temperature .difference",
      "cool_to_assemble(size, interference, clearance, shaft, shop_temperature?) .shaft_temperature .difference",
      "shrink_grip(size, grip_length, hub_outside, interference, hub, shaft, shaft_bore?, friction?, hub_yield?) .pressure .axial_force .torque .hub_stress",
      "drill_size(size, kind?) .nearest .called .off .up .up_called .up_off .down .down_called .down_off",
      "drill_point_depth(diameter, point?) .",
      "centre_drill(diameter) .pilot .body .wide .cone .depth",
      "clearance_hole(thread) .fine .medium .coarse .play",
      "counterbore(thread) .bore .deep .through",
      "reaming_allowance(diameter) .allowance .drill .left",
      "thread_sizes(thread) .diameter .pitch .pitch_diameter .bore .core .depth .engaged .series",
      "thread_infeed(thread, compound_angle?) .straight .by_compound .in_bore .in_bore_by_compound .flat_root .sharp",
      "lead_angle(pitch_diameter, pitch, starts?) .",
      "screw_limits(thread) .outside_max .outside_min .pitch_diameter_max .pitch_diameter_min .tolerance .checked",
      "nut_limits(thread) .bore_min .bore_max .pitch_diameter_min .pitch_diameter_max .tolerance .checked",
      "tap_drill(thread) .drill .called .handbook .engaged .note",
      "thread_percent(thread, drill) .handbook .engaged",
      "drill_for_thread(thread, engaged) .drill .handbook",
      "best_wire(pitch, thread_angle?) .wire .smallest .largest",
      "over_wires(pitch_diameter, pitch, wire, thread_angle?) .",
      "pitch_diameter_of(over_wires, pitch, wire, thread_angle?) .",
      "screw_over_wires(thread, wire?) .best .basic .largest .smallest .tolerance",
      "thread_gears(lead, lathe) .drivers .driven .ratio .cuts .train",
      "nearest_fraction(size, parts?) .fraction .exactly .off",
      "likely_size(measured, part?, wear?) .best .called .off .names .sizes .offs .likelihoods .ranking",
      "blank_size(diameter, length, on_diameter, on_end, grip?, bars?) .least_bar .bar .turned_off .blank_length",
      "bar_mass(shape, size, length, material, wall?) .mass .per_metre",
      "price_by_mass(mass, price, cut?) .",
      "price_by_length(length, price, cut?) .",
      "pieces_from_bar(bar, piece, kerf, trim?) .pieces .all_cut .left",
      "cut_list(pieces, bar, kerf, trim?) .bars .order .from_bar .left .waste",
      "operation_time(pieces, setup, cutting, handling) .total .each .one_off .under_tool",
      "crank_time(turns, crank_speed) .",
      "operation_cost(time, rate) .",
      "markup_and_margin(cost, percent) .by_markup .by_margin .margin_of_markup .markup_of_margin",
      "quotation(pieces, setup_cost, piece_cost, material, percent, other?) .once .for_pieces .cost .by_markup .by_margin .each_by_markup .each_by_margin .one_off_by_markup .one_off_by_margin .items .quantities .rates .amounts",
      "hardness_conversion(hardness, scale, into) .",
      "strength_from_hardness(hardness, scale) .",
      "shaft_power(torque, spindle_speed) .",
      "shaft_torque(power, spindle_speed) .",
    ]
  `);
});

it('says of each finding why it is raised, and says it in the words of the formula', () => {
  for (const [code, { say, why }] of Object.entries(tradeFindings)) {
    expect(why.length, code).toBeGreaterThan(20);
    expect(say({ says: 'Give a neck below 30 mm.' })).toBe('Give a neck below 30 mm.');
  }
});

it('finds caution texts in the order asked, and none for a key that is none', () => {
  const [knee = [], crank = []] = ['knee', 'crank'].map((key) => CAUTIONS.get(key));
  expect(cautionsFor(['crank', 'nothing', 'knee'])).toEqual([...crank, ...knee]);
  for (const [key, texts] of CAUTIONS) expect(texts.length, key).toBeGreaterThan(0);
});
