/** The notes that are measured. Figures and names are invented; each note is what its measure needs and no more. */

/** A note with one figures block. */
export function note(lines: readonly string[]): string {
  return `# Bench\n\n\`\`\`figures\n${lines.join('\n')}\n\`\`\`\n`;
}

function times<T>(count: number, make: (i: number) => T): T[] {
  return Array.from({ length: count }, (_, i) => make(i));
}

/** A part's worth of lines that read the same in the notation and in mathjs, ten at a time. */
export function mixed(count: number): string[] {
  return times(Math.ceil(count / 10), (i) => [
    `bore${i} = ${(12 + (i % 40) * 0.25).toFixed(2)} mm`,
    `wall${i} = ${3 + (i % 5)}.5 mm`,
    `outside${i} = bore${i} + 2 * wall${i}`,
    `inches${i} = outside${i} to in`,
    `length${i} = ${2 + (i % 9)}.125 in`,
    `area${i} = pi * (outside${i}^2 - bore${i}^2) / 4`,
    `mass${i} = area${i} * length${i} * 7850 kg/m^3 to g`,
    `speed${i} = length${i} / (${20 + (i % 30)} s) to mm/s`,
    `diagonal${i} = sqrt(length${i}^2 + outside${i}^2)`,
    `side${i} = diagonal${i} * sin(${15 + (i % 60)} deg) - wall${i}`,
  ])
    .flat()
    .slice(0, count);
}

/** Each line but the first needs the one before it; `plain.ts` has the same in JavaScript. */
export function chain(count: number, first = '25 mm'): string[] {
  return times(count, (i) => {
    if (i === 0) return `c0 = ${first}`;
    const step = ['+ 0.4 mm', '* 1.25', '- 0.5 mm', '/ 1.25'][(i - 1) % 4];
    return `c${i} = c${i - 1} ${step}`;
  });
}

export function independent(count: number): string[] {
  return times(count, (i) => `p${i} = ${(10 + (i % 500) * 0.05).toFixed(2)} mm * ${(i % 7) + 2} + 0.5 in`);
}

/** Sizes with limits, and what they come to: groups of four, every result moved by three inputs. */
export function toleranced(count: number): string[] {
  return times(Math.ceil(count / 4), (i) => [
    `shaft${i} = ${10 + (i % 50)} mm ± 0.02`,
    `hole${i} = ${10 + (i % 50)} mm +0.05/+0.02 mm`,
    `shim${i} = 0.5 mm ± 0.005`,
    `play${i} = (hole${i} - shaft${i}) / 2 + shim${i}`,
  ])
    .flat()
    .slice(0, count);
}

export const GROUP = 101;

/** Groups of one size and a hundred lines that need it. Group `of` has its size stated as `size`, or not at all. */
export function groups(count: number, of = -1, size: string | null = null): string[] {
  return times(Math.ceil(count / GROUP), (g) => {
    const stated = g === of ? size : `${20 + (g % 60)} mm`;
    const dependents = times(GROUP - 1, (i) => `d${g}_${i} = size${g} * ${i + 2} - 0.5 mm`);
    return stated === null ? dependents : [`size${g} = ${stated}`, ...dependents];
  }).flat();
}
