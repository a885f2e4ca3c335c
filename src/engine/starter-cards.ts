/**
 * Starter material cards, written as cards are. A shop's own cards of the same name come first.
 *
 * Cutting speeds: common practice, from memory; starting points for roughing with a sharp tool and a solid set-up.
 * Specific cutting force kc1.1 and exponent mc (turning with carbide, about 100 m/min): after Kienzle and Victor (1957) as
 * printed in German textbooks, from memory; the values for 16MnCr5, 42CrMo4 and EN-GJL-250 reproduce a published chart of kc
 * against feed within 3 %, the others are from memory alone.
 * Densities: common handbook data, within about 2 %.
 */
export const STARTER_CARDS = `
\`\`\`material steel_S235
name: mild steel S235
density = 7850 kg/m^3
hss_speed = 27 m/min
carbide_speed = 110 m/min
\`\`\`

\`\`\`material steel_C45
name: medium carbon steel C45
density = 7850 kg/m^3
specific_force = 2220 N/mm^2
force_exponent = 0.14
hss_speed = 22 m/min
carbide_speed = 90 m/min
\`\`\`

\`\`\`material steel_16MnCr5
name: case-hardening steel 16MnCr5
density = 7850 kg/m^3
specific_force = 2100 N/mm^2
force_exponent = 0.26
hss_speed = 22 m/min
carbide_speed = 90 m/min
\`\`\`

\`\`\`material steel_42CrMo4
name: alloy steel 42CrMo4, annealed
density = 7850 kg/m^3
specific_force = 2500 N/mm^2
force_exponent = 0.26
hss_speed = 18 m/min
carbide_speed = 80 m/min
\`\`\`

\`\`\`material stainless_304
name: stainless steel 304 (X5CrNi18-10)
density = 7930 kg/m^3
specific_force = 2350 N/mm^2
force_exponent = 0.21
hss_speed = 14 m/min
carbide_speed = 70 m/min
\`\`\`

\`\`\`material iron_GJL250
name: grey cast iron EN-GJL-250
density = 7200 kg/m^3
specific_force = 1160 N/mm^2
force_exponent = 0.26
hss_speed = 20 m/min
carbide_speed = 70 m/min
\`\`\`

\`\`\`material brass_CuZn39Pb3
name: free-cutting brass CuZn39Pb3
density = 8470 kg/m^3
specific_force = 780 N/mm^2
force_exponent = 0.18
hss_speed = 60 m/min
carbide_speed = 150 m/min
\`\`\`

\`\`\`material aluminium_6082
name: aluminium alloy 6082
density = 2700 kg/m^3
specific_force = 700 N/mm^2
force_exponent = 0.25
hss_speed = 90 m/min
carbide_speed = 250 m/min
\`\`\`
`;

/** Names alone, so that looking up an ordinary name does not read the cards. */
export const STARTER_NAMES: ReadonlySet<string> = new Set([
  'steel_S235',
  'steel_C45',
  'steel_16MnCr5',
  'steel_42CrMo4',
  'stainless_304',
  'iron_GJL250',
  'brass_CuZn39Pb3',
  'aluminium_6082',
]);
