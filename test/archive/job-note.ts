/** A made-up workshop: believable notes by a seed, for tests and benchmarks. */
const CUSTOMERS = [
  'Ostley Ferry Trust',
  'Marrow Lane Pottery',
  'Fennick Locks',
  'Dunmere Boatyard',
  'Hallow Mill',
];
const PARTS = ['Lever ball', 'Winch pin', 'Bearing sleeve', 'Valve spindle', 'Gauge ball', 'Index plate'];
const MATERIALS = ['steel_C45', 'brass_CuZn39Pb3', 'stainless_304', 'aluminium_6082'];
const WHY = [
  'chatter gone',
  'sang on the corners',
  'as planned',
  'tip was worn',
  'knee crept',
  'customer in a hurry',
];
const PROSE = [
  'The old part had worn flat on one side and rattled in its seat.',
  'Held between chuck and live centre; the thin end whips without support.',
  'The gauge goes on with a push and no play.',
  'Customer brings the bar himself next time.',
  'Second of a pair, the first was made in spring.',
];

/** Numbers from 0 to 1, the same for the same seed. */
export function chances(seed: number): () => number {
  let state = seed >>> 0 || 1;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

export function jobNote(number: number, seed = 1): string {
  const chance = chances(seed * 7919 + number * 104729);
  for (let i = 0; i < 5; i++) chance();
  const pick = <T>(from: readonly T[]): T => from[Math.floor(chance() * from.length)] as T;
  const ball = 12 + Math.round(chance() * 400) / 10;
  const neck = Math.round(ball * (0.3 + chance() * 0.2) * 10) / 10;
  const speed = 50 + Math.round(chance() * 120) * 10;
  const year = 2019 + Math.floor(chance() * 8);
  const month = String(1 + Math.floor(chance() * 12)).padStart(2, '0');
  return `---
job: ${String(number).padStart(4, '0')}
customer: ${pick(CUSTOMERS)}
part: ${pick(PARTS)}
material: ${pick(MATERIALS)}
quantity: ${1 + Math.floor(chance() * 4)}
due: ${year}-${month}-15
status: ${pick(['planned', 'cutting', 'done', 'done'])}
---

# ${pick(PARTS)} of ${ball} mm

${pick(PROSE)} ${pick(PROSE)}

\`\`\`figures
ball  = ${ball} mm ± 0.05 mm shaft
neck  = ${neck} mm
setup = ball_on_shank(ball, neck)
speed = ${speed} rpm
rate  = 0.1 mm/rev * speed
ball measured ${(ball + 0.4).toFixed(2)} mm
ball final ${(ball + 0.01).toFixed(2)} mm
speed used ${speed - 20} rpm   # ${pick(WHY)}
setup.ring used ${(ball * 0.97).toFixed(2)} mm
\`\`\`

- Lesson: ${pick(WHY)} at ${speed - 20} rpm
`;
}
