/**
 * Starter material cards, written as cards are. A shop's own cards of the same name come first.
 *
 * Cutting speeds: common practice, from memory; starting points for roughing with a sharp tool and a solid set-up.
 * Specific cutting force kc1.1 and exponent mc (turning with carbide, about 100 m/min): after Kienzle and Victor (1957) as
 * printed in German textbooks, from memory; where a published chart of kc against feed agrees, the card says how closely.
 * Densities: common handbook data, within about 2 %. Thermal expansions: common handbook data, within about 5 %.
 */

/** Starting speeds in m/min, each with the range they are seen in, and the class they were stated for. */
interface Speeds {
  readonly hss: number;
  readonly hssRange: readonly [number, number];
  readonly carbide: number;
  readonly carbideRange: readonly [number, number];
  readonly of: string;
}

const speeds = (
  of: string,
  hss: number,
  hssRange: readonly [number, number],
  carbide: number,
  carbideRange: readonly [number, number],
): Speeds => ({ of, hss, hssRange, carbide, carbideRange });

const FREE_CUTTING = speeds('free-cutting steel', 35, [30, 45], 150, [120, 250]);
const MILD = speeds('mild steel', 27, [24, 33], 110, [90, 200]);
const MEDIUM_CARBON = speeds('medium carbon steel', 22, [18, 27], 90, [70, 150]);
const ALLOY = speeds('annealed alloy steel', 18, [15, 24], 80, [60, 130]);
const TOOL = speeds('annealed tool steel', 13, [9, 18], 60, [45, 90]);
const STAINLESS_FREE = speeds('free-cutting stainless steel', 22, [18, 30], 90, [70, 140]);
const STAINLESS = speeds('stainless steel', 14, [10, 20], 70, [50, 110]);
const GREY_IRON = speeds('grey cast iron', 20, [18, 27], 70, [55, 110]);
const DUCTILE_IRON = speeds('ductile or hard cast iron', 15, [12, 20], 60, [45, 90]);
const BRASS = speeds('free-cutting brass', 60, [45, 90], 150, [120, 300]);
const BRONZE = speeds('bronze', 22, [15, 35], 80, [60, 150]);
const COPPER = speeds('copper', 40, [30, 60], 120, [90, 250]);
const ALUMINIUM = speeds('aluminium alloy', 90, [60, 150], 250, [150, 500]);
const TITANIUM = speeds('titanium alloy', 8, [6, 12], 40, [30, 60]);
const NICKEL = speeds('nickel alloy', 4, [3, 6], 20, [15, 30]);
const PLASTICS = speeds('plastics', 90, [60, 150], 200, [150, 400]);

/** kc1.1 in N/mm², mc, and how closely a published chart agrees in percent; null where memory stands alone. */
type Force = readonly [specific: number, exponent: number, chart: number | null];

interface Material {
  readonly name: string;
  readonly words: string;
  /** In kg/m³. */
  readonly density: number;
  readonly speeds: Speeds;
  /** Null where no value is at hand: then no force is worked out rather than a guessed one. */
  readonly force: Force | null;
}

const STEEL = 7850;
const STAINLESS_STEEL = 7930;
const CAST_IRON = 7200;
const ALUMINIUM_ALLOY = 2700;

const material = (
  name: string,
  words: string,
  density: number,
  ofClass: Speeds,
  force: Force | null = null,
): Material => ({ name, words, density, speeds: ofClass, force });

const MATERIALS: readonly Material[] = [
  material('steel_11SMn30', 'free-cutting steel 11SMn30 (near 12L14)', STEEL, FREE_CUTTING),
  material('steel_S235', 'mild steel S235 (near 1018)', STEEL, MILD),
  material('steel_C15', 'case-hardening steel C15', STEEL, MILD, [1820, 0.22, null]),
  material('steel_C45', 'medium carbon steel C45 (near 1045)', STEEL, MEDIUM_CARBON, [2220, 0.14, null]),
  material('steel_C60', 'high carbon steel C60', STEEL, MEDIUM_CARBON, [2130, 0.18, null]),
  material('steel_E295', 'engineering steel E295 (St 50)', STEEL, MEDIUM_CARBON, [1990, 0.26, 1.3]),
  material('steel_E335', 'engineering steel E335 (St 60)', STEEL, MEDIUM_CARBON, [2110, 0.17, 1.7]),
  material('steel_E360', 'engineering steel E360 (St 70)', STEEL, MEDIUM_CARBON, [2260, 0.3, 1]),
  material('steel_16MnCr5', 'case-hardening steel 16MnCr5', STEEL, MEDIUM_CARBON, [2100, 0.26, 1.3]),
  material('steel_34CrMo4', 'alloy steel 34CrMo4, annealed', STEEL, ALLOY, [2240, 0.21, null]),
  material('steel_42CrMo4', 'alloy steel 42CrMo4, annealed (near 4140)', STEEL, ALLOY, [2500, 0.26, 1.3]),
  material('steel_GE240', 'cast steel GE240 (GS-45)', STEEL, MEDIUM_CARBON, [1600, 0.17, 2.3]),
  material('steel_GE260', 'cast steel GE260 (GS-52)', STEEL, MEDIUM_CARBON, [1780, 0.17, 3.2]),
  material('tool_steel_O1', 'tool steel O1, annealed', STEEL, TOOL),
  material('tool_steel_D2', 'tool steel D2, annealed', STEEL, TOOL),
  material('stainless_303', 'free-cutting stainless steel 303', STAINLESS_STEEL, STAINLESS_FREE),
  material('stainless_304', 'stainless steel 304 (X5CrNi18-10)', STAINLESS_STEEL, STAINLESS, [
    2350,
    0.21,
    null,
  ]),
  material('stainless_316', 'stainless steel 316', STAINLESS_STEEL, STAINLESS),
  material('iron_GJL200', 'grey cast iron EN-GJL-200', CAST_IRON, GREY_IRON, [1020, 0.25, null]),
  material('iron_GJL250', 'grey cast iron EN-GJL-250', CAST_IRON, GREY_IRON, [1160, 0.26, 2.4]),
  material('iron_GJS400', 'ductile cast iron EN-GJS-400', CAST_IRON, DUCTILE_IRON),
  material('brass_CuZn39Pb3', 'free-cutting brass CuZn39Pb3', 8470, BRASS, [780, 0.18, null]),
  material('bronze_CuSn8', 'phosphor bronze CuSn8', 8800, BRONZE),
  material('copper_CuETP', 'copper Cu-ETP', 8960, COPPER),
  material('aluminium_6061', 'aluminium alloy 6061', ALUMINIUM_ALLOY, ALUMINIUM, [700, 0.25, null]),
  material('aluminium_6082', 'aluminium alloy 6082', ALUMINIUM_ALLOY, ALUMINIUM, [700, 0.25, null]),
  material('titanium_Ti6Al4V', 'titanium alloy Ti-6Al-4V', 4430, TITANIUM),
  material('nickel_718', 'nickel alloy 718', 8190, NICKEL),
  material('plastic_POM', 'acetal (POM)', 1410, PLASTICS),
  material('plastic_PA6', 'nylon 6 (PA6)', 1140, PLASTICS),
];

/** Thermal expansion in µm/m/K near room temperature by the first part of a card's name: common handbook values, from memory. */
const EXPANSIONS: readonly (readonly [first: string, value: number])[] = [
  ['steel', 11.5],
  ['tool_steel', 11.5],
  ['stainless_316', 16],
  ['stainless', 17.3],
  ['iron', 10.5],
  ['brass', 19],
  ['bronze', 18],
  ['copper', 17],
  ['aluminium', 23],
  ['titanium', 8.6],
  ['nickel', 13],
  ['plastic_POM', 110],
  ['plastic_PA6', 80],
];

/** Modulus of elasticity in N/mm² by the first part of a card's name: common handbook values, from memory. */
const MODULI: readonly (readonly [first: string, value: number])[] = [
  ['steel', 210000],
  ['tool_steel', 210000],
  ['iron_GJL', 110000],
  ['brass', 100000],
  ['aluminium', 70000],
];

function modulusLines(name: string): readonly string[] {
  const found = MODULI.find(([first]) => name.startsWith(first));
  return found ? [`modulus = ${found[1]} N/mm^2`] : [];
}

function expansionLines(name: string): readonly string[] {
  const found = EXPANSIONS.find(([first]) => name.startsWith(first));
  return found ? [`expansion = ${found[1]} µm/m/K`] : [];
}

const agreed = (chart: number | null): string =>
  chart === null
    ? 'from memory alone'
    : `from memory, met within ${chart} % by a published chart of kc against feed at 45°`;

function source({ speeds: { of }, force }: Material): string {
  const forces = force
    ? `; kc1.1 and mc for turning with carbide at about 100 m/min after Kienzle and Victor (1957) as printed in textbooks, ${agreed(force[2])}`
    : '';
  return (
    `speeds for ${of}, common practice, from memory, for roughing with a sharp tool and a solid set-up${forces}; ` +
    'density a common handbook value, within about 2 %; expansion a common handbook value near room temperature, from ' +
    'memory, within about 5 %, of plastics 20 %; modulus, where there is one, a common handbook value, from memory'
  );
}

const between = ([low, high]: readonly [number, number]): string => `${low} to ${high} m/min`;

function cardText(of: Material): string {
  const { hss, hssRange, carbide, carbideRange } = of.speeds;
  return [
    `\`\`\`material ${of.name}`,
    `name: ${of.words}`,
    `density = ${of.density} kg/m^3`,
    ...expansionLines(of.name),
    ...modulusLines(of.name),
    ...(of.force ? [`specific_force = ${of.force[0]} N/mm^2`, `force_exponent = ${of.force[1]}`] : []),
    `hss_speed = ${hss} m/min`,
    `hss_range: ${between(hssRange)}`,
    `carbide_speed = ${carbide} m/min`,
    `carbide_range: ${between(carbideRange)}`,
    `source: ${source(of)}`,
    '```',
  ].join('\n');
}

export const STARTER_CARDS = `\n${MATERIALS.map(cardText).join('\n\n')}\n`;

/** Names alone, so that looking up an ordinary name does not read the cards. */
export const STARTER_NAMES: ReadonlySet<string> = new Set(MATERIALS.map(({ name }) => name));
