/** An ordinary note of a given length: sections of prose and of figures as a shop writes them. */
const FENCE = '```';

export function benign(length: number): string {
  const pieces: string[] = ['---\njob: 0815\ncustomer: Miller\npart: Bush\nquantity: 4\n---\n'];
  for (let made = 0, i = 0; made < length; i++) {
    const piece = section(i);
    pieces.push(piece);
    made += piece.length;
  }
  return pieces.join('');
}

function section(i: number): string {
  const size = 10 + (i % 50);
  return [
    `## Part ${i}`,
    '',
    'The old part measures a little under its size where it has worn, so it is taken to have been',
    'the next size up, and the bore follows from what is left of the wall. Held in the chuck by the',
    'larger end, with the tailstock brought up as soon as the centre hole is in.',
    '',
    '- [ ] face and centre',
    '- [ ] turn the outside',
    '',
    `${FENCE}figures`,
    `bore${i} = ${size}.25 mm ± 0.02 # as the pin measures`,
    `wall${i} = ${3 + (i % 5)}.5 mm`,
    `outside${i} = bore${i} + 2 * wall${i}`,
    `speed${i} = spindle_speed(24 m/min, outside${i})`,
    `area${i} = pi * (outside${i}^2 - bore${i}^2) / 4 to cm^2`,
    `outside${i} <= 80 mm # the chuck`,
    `bore${i} measured ${size}.24 mm`,
    FENCE,
    '',
  ].join('\n');
}
