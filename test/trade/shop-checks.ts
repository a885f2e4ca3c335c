/** How the inputs of the independent checks go into hole patterns, stock and saw. */
import { type Run, numbers } from './ball-checks';
import { list, materialCard } from './given';

/** Common handbook values in kg/m³, as the checks were worked with. */
const DENSITIES = new Map([
  ['steel', 7850],
  ['brass CuZn39Pb3', 8470],
  ['stainless 304', 7930],
]);
const SHAPES = new Map([
  ['round', 'round'],
  ['hex', 'hexagon'],
]);

export const SHOP_RUN: Readonly<Record<string, Run>> = {
  G06: (at) => numbers('drill_point_depth', { diameter: at('d_mm'), point: at('point_deg') }, ''),
  G07: (at) => {
    const circle = { diameter: 2 * at('R_mm'), holes: at('n'), start: at('t0_deg') };
    const y = list('bolt_circle', circle, 'y');
    return list('bolt_circle', circle, 'x').flatMap((x, i) => [x, y[i] ?? NaN]);
  },
  G10: (at, _, __, inputs) => {
    const density = DENSITIES.get(String(inputs['material'])) ?? NaN;
    const material = materialCard('stock', { density: [density, 'kg/m^3'] });
    const shape = SHAPES.get(String(inputs['shape'])) ?? '';
    return numbers('bar_mass', { shape, size: at('size_mm'), length: at('L_mm'), material }, 'mass');
  },
  G11: (at) => {
    const bar = { bar: at('bar_mm'), piece: at('piece_mm'), kerf: at('kerf_mm'), trim: at('trim_mm') };
    return numbers('pieces_from_bar', bar, 'pieces', 'all_cut');
  },
};
