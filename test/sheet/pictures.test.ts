/** What is drawn agrees with the figures: the coordinates are read back from the pictures. */
import { describe, expect, it } from 'vitest';
import { isoLimits } from '../../src/quantity/iso286';
import { PICTURES, picturesOf, sharesOf } from '../../src/sheet/picture/of-row';
import { PREVIEW } from '../../src/sheet/how';
import { allFormulas } from '../../src/trade/index';
import { type Drawn, apart as between, drawn, length, read, sheetOf } from './drawn';

describe('the set-up for a ball', () => {
  // Chord, sine and cosine by hand for each: joint = asin(neck / ball), tilt its half.
  it.each([
    [26, 11.1],
    [40, 5],
    [30, 24],
    [12.7, 9],
  ])('ball %d, neck %d', (ball, neck) => {
    const tilt = Math.asin(neck / ball) / 2;
    const it = drawn(`ball_on_shank(${ball} mm, ${neck} mm)`);
    const [ring] = it.all('ring');
    expect(length(ring) / it.scale).toBeCloseTo(ball * Math.cos(tilt), 2);
    const centre = it.all('ring-from-above')[0];
    expect((2 * Number(centre?.['r'])) / it.scale).toBeCloseTo(ball * Math.cos(tilt), 2);
    // The axis runs through the centre of the ring and slopes by the tilt, free end up on the right.
    const [axis] = it.all('axis');
    const [dx, dy] = [
      Number(axis?.['x1']) - Number(axis?.['x2']),
      Number(axis?.['y2']) - Number(axis?.['y1']),
    ];
    expect(Math.atan2(dy, dx)).toBeCloseTo(tilt, 4);
    // The free end's pole is the right tip of the ring, the neck meets the ball at the left one.
    const slope = dy / dx;
    const along = (x: number): number => Number(axis?.['y2']) - slope * (x - Number(axis?.['x2']));
    expect(along(Number(ring?.['x2']))).toBeCloseTo(Number(ring?.['y2']), 1);
    const [upper] = it.all('neck-b');
    expect(Number(upper?.['x1'])).toBeCloseTo(Number(ring?.['x1']), 1);
    expect(Number(upper?.['y1'])).toBeCloseTo(Number(ring?.['y1']), 1);
    // The two edges of the shank are a neck apart.
    const [lower] = it.all('neck-a');
    expect(
      Math.hypot(
        Number(upper?.['x1']) - Number(lower?.['x1']),
        Number(upper?.['y1']) - Number(lower?.['y1']),
      ) / it.scale,
    ).toBeCloseTo(neck, 2);
    // The height's dimension goes from the centre's level to the ring's.
    const height = length(it.all('height')[0]);
    const outside = height - 32;
    const wanted = (ball / 2) * Math.sin(tilt) * it.scale;
    expect(Math.min(Math.abs(height - wanted), Math.abs(outside - wanted))).toBeLessThan(0.01);
  });

  it('says in words what is drawn', () => {
    expect(drawn('ball_on_shank(30 mm, 12 mm)').says).toContain('tilted 11.789°, free end up');
    expect(drawn('ball_on_shank(30 mm, 12 mm)').says).toContain('level ring of 29.367 mm, 3.065 mm above');
  });
});

describe('the passes to the knee', () => {
  it('stand on the curve that ring and height make', () => {
    const line = 'p = knee_schedule(26 mm, 25.34 mm, 12.7°, 26.5 mm, 13.2 mm, 2 mm)';
    const it = drawn(line);
    const passes = it.all('pass').map((tag) => ({ x: Number(tag['cx']), y: Number(tag['cy']) }));
    const fields = sheetOf(line).valueOf('p');
    const list = (name: string): number[] => {
      const found = fields?.kind === 'record' ? fields.fields.get(name) : undefined;
      return found?.kind === 'list' ? found.items.map(({ value }) => value) : [];
    };
    const [raised, balls] = [list('raised'), list('balls')];
    expect(passes).toHaveLength(raised.length);
    const [first, last] = [passes[0], passes.at(-1)];
    const [r0 = NaN, rn = NaN, b0 = NaN, bn = NaN] = [raised[0], raised.at(-1), balls[0], balls.at(-1)];
    passes.forEach(({ x, y }, i) => {
      expect((x - (first?.x ?? 0)) / ((last?.x ?? 0) - (first?.x ?? 0))).toBeCloseTo(
        ((raised[i] ?? NaN) - r0) / (rn - r0),
        4,
      );
      expect((y - (first?.y ?? 0)) / ((last?.y ?? 0) - (first?.y ?? 0))).toBeCloseTo(
        ((balls[i] ?? NaN) - b0) / (bn - b0),
        4,
      );
    });
    expect(last?.y).toBeCloseTo(it.number('to-size', 'y1'), 2);
  });
});

describe('circles of holes', () => {
  it('13 divisions: 3 turns and 3 holes of 39 lie between the arms', () => {
    const it = drawn('plain_indexing(13, head)');
    expect(it.all('counted')).toHaveLength(4);
    expect(it.all('hole')).toHaveLength(35);
    const [one, two] = it
      .all('arm')
      .map((arm) => Math.atan2(Number(arm['x2']) - Number(arm['x1']), Number(arm['y1']) - Number(arm['y2'])));
    // Clockwise from the top, as one counts on the plate.
    expect((((two ?? NaN) - (one ?? NaN)) * 39) / (2 * Math.PI)).toBeCloseTo(3, 3);
    expect(it.says).toContain('Each move: 3 turns and 3 holes');
  });

  it('20 divisions: whole turns need no arms', () => {
    const it = drawn('plain_indexing(20, head)');
    expect(it.all('arm')).toHaveLength(0);
    expect(it.all('counted')).toHaveLength(1);
  });

  it('holes to drill lie where the readout has them', () => {
    const it = drawn('bolt_circle(60 mm, 5, 10 mm, 20 mm, 15°)');
    const [cx, cy] = [it.number('circle', 'cx'), it.number('circle', 'cy')];
    const holes = it.all('drilled');
    expect(holes).toHaveLength(5);
    holes.forEach((hole, i) => {
      const angle = ((15 + 72 * i) * Math.PI) / 180;
      expect((Number(hole['cx']) - cx) / it.scale).toBeCloseTo(30 * Math.cos(angle), 2);
      expect((cy - Number(hole['cy'])) / it.scale).toBeCloseTo(30 * Math.sin(angle), 2);
    });
  });
});

describe('bars', () => {
  const limits = (...readings: string[]): Drawn => {
    const sheet = sheetOf('d = 20 mm +0.02/-0.01 mm shaft', ...readings);
    const row = sheet.figure('d');
    const [svg = ''] = row ? picturesOf(sheet, row) : [];
    return read(svg);
  };

  it('readings stand where they lie between the limits', () => {
    const it = limits('d final 20.005 mm, 19.985 mm');
    const [low, high] = [it.number('low', 'x1'), it.number('high', 'x1')];
    expect((high - low) / it.scale).toBeCloseTo(0.03, 5);
    const marks = it.points('reading').map(([tip]) => ((tip?.x ?? NaN) - low) / it.scale + 19.99);
    expect(marks[0]).toBeCloseTo(20.005, 4);
    expect(marks[1]).toBeCloseTo(19.985, 4);
    expect((it.number('nominal', 'x1') - low) / it.scale).toBeCloseTo(0.01, 5);
  });

  it('there is none without readings, nor where the limits would vanish beside the stock', () => {
    expect(limits().svg).toBe('');
    expect(limits('d measured 22 mm').svg).toBe('');
  });

  it.each([
    ['H7', 'g6'],
    ['H7', 'p6'],
    ['K7', 'h6'],
  ])('the zones of 25 %s/%s', (hole, shaft) => {
    const it = drawn(`fit(25 mm, ${hole}, ${shaft})`);
    const zero = it.number('zero', 'y1');
    for (const [name, code] of [
      ['hole', hole],
      ['shaft', shaft],
    ] as const) {
      const found = isoLimits(25, code);
      if (!('upper' in found)) throw new Error(code);
      const [corners = []] = it.points(name);
      const heights = corners.map(({ y }) => (zero - y) / it.scale);
      expect(Math.max(...heights)).toBeCloseTo(found.upper, 1);
      expect(Math.min(...heights)).toBeCloseTo(found.lower, 1);
    }
  });

  it('shares are as long as they are large', () => {
    // Half of 2 · 0.3 against 0.4: by hand 60 % and 40 %.
    const sheet = sheetOf('a = 10 mm ± 0.3', 'b = 10 mm ± 0.2', 'a + b');
    const row = sheet.rows().at(-1);
    const it = read((row && sharesOf(sheet, row)) ?? '');
    const widths = it
      .points('share')
      .map((corners) => ((corners[1]?.x ?? NaN) - (corners[0]?.x ?? NaN)) / it.scale);
    expect(widths[0]).toBeCloseTo(0.6, 4);
    expect(widths[1]).toBeCloseTo(0.4, 4);
    expect(it.says).toContain('a 60 %, b 40 %');
  });

  it('a single input is no share', () => {
    const sheet = sheetOf('a = 10 mm ± 0.3', '2 * a');
    const row = sheet.rows().at(-1);
    expect(row && sharesOf(sheet, row)).toBeNull();
  });
});

describe('a taper between centres', () => {
  it('is drawn to scale along and across', () => {
    const it = drawn('tailstock_setover(30 mm, 26 mm, 100 mm, 180 mm)');
    const [cone = []] = it.points('cone');
    const [a, b, c, d] = cone;
    expect(((b?.x ?? 0) - (a?.x ?? 0)) / it.scale).toBeCloseTo(100, 2);
    expect(((d?.y ?? 0) - (a?.y ?? 0)) / it.scale).toBeCloseTo(30, 2);
    expect(((c?.y ?? 0) - (b?.y ?? 0)) / it.scale).toBeCloseTo(26, 2);
    expect(length(it.all('between')[0]) / it.scale).toBeCloseTo(180, 2);
  });
});

describe('a taper found from readings', () => {
  const sizes = [18.242, 18.251, 18.266];
  const places = [10, 88, 166];
  const list = (values: number[]): string => `[${values.join(', ')}] mm`;

  it('has each reading where it was taken, and the line that fits them best', () => {
    const it = drawn(`taper_found(${list(sizes)}, ${list(places)})`);
    const points = it.all('reading').map((tag) => ({ x: Number(tag['cx']), y: Number(tag['cy']) }));
    const along = (i: number): number =>
      ((points[i]?.x ?? 0) - (points[0]?.x ?? 0)) / ((points[2]?.x ?? 0) - (points[0]?.x ?? 0));
    expect(along(1)).toBeCloseTo((88 - 10) / (166 - 10), 4);
    const higher = (i: number): number => ((points[0]?.y ?? 0) - (points[i]?.y ?? 0)) / it.scale;
    expect(higher(1)).toBeCloseTo(0.009, 5);
    expect(higher(2)).toBeCloseTo(0.024, 5);
    // Least squares by hand: the places are evenly spaced, so the line rises by the ends' difference, through the mean.
    const [line] = it.all('fitted');
    expect((Number(line?.['y1']) - Number(line?.['y2'])) / it.scale).toBeCloseTo(0.024, 5);
    const meanY = points.reduce((sum, { y }) => sum + y / 3, 0);
    expect((Number(line?.['y1']) + Number(line?.['y2'])) / 2).toBeCloseTo(meanY, 2);
    expect(it.says).toContain('18.242 mm at 10 mm, 18.251 mm at 88 mm, 18.266 mm at 166 mm');
    expect(it.says).toContain('larger towards the tailstock: 0.024 mm');
  });

  it('says how far the tailstock goes to take it out', () => {
    // Half of 0.03 in 60, over 180: 0.045.
    const it = drawn('tailstock_correction([12.76, 12.73] mm, [10, 70] mm, 180 mm)');
    expect(it.says).toContain('tailstock 0.045 mm away from the operator');
  });

  it('is not drawn of readings without places', () => {
    expect(() => drawn('taper_found([12.76, 12.73] mm, [10, 10] mm)')).toThrow('no picture');
  });
});

describe('a thread under three wires', () => {
  const apart = (p: { x: number; y: number }, a: typeof p, b: typeof p): number => {
    const [dx, dy] = [b.x - a.x, b.y - a.y];
    const t = Math.max(0, Math.min(1, ((p.x - a.x) * dx + (p.y - a.y) * dy) / (dx * dx + dy * dy)));
    return Math.hypot(p.x - a.x - t * dx, p.y - a.y - t * dy);
  };

  it.each([
    ['over_wires(10.8632 mm, 1.75 mm, 1.1 mm)', 1.75, 1.1, 60],
    ['over_wires(20 mm, 5 mm, 2.6 mm, thread_angle: 29°)', 5, 2.6, 29],
    ['pitch_diameter_of(22.1506 mm, 2.54 mm, 1.45 mm, thread_angle: 55°)', 2.54, 1.45, 55],
    ['screw_over_wires(M18, 1.6 mm)', 2.5, 1.6, 60],
  ])('%s: each wire is to scale and touches both flanks', (line, pitch, wire, angle) => {
    const it = drawn(line);
    const wires = it.all('wire').map((tag) => ({
      x: Number(tag['cx']),
      y: Number(tag['cy']),
      r: Number(tag['r']),
    }));
    expect(wires).toHaveLength(3);
    expect(((wires[1]?.x ?? 0) - (wires[0]?.x ?? 0)) / it.scale).toBeCloseTo(pitch, 3);
    const [above = [], below = []] = [...it.points('thread-above'), ...it.points('thread-below')];
    wires.forEach((at, i) => {
      expect((2 * at.r) / it.scale).toBeCloseTo(wire, 3);
      const form = i < 2 ? above : below;
      const near = form.slice(1).map((point, k) => apart(at, form[k] ?? point, point) - at.r);
      // Two flanks are touched, and no part of the thread reaches into the wire.
      expect(near.filter((gap) => Math.abs(gap) < 0.01).length).toBeGreaterThanOrEqual(2);
      expect(Math.min(...near)).toBeGreaterThan(-0.01);
    });
    const slopes = above
      .slice(1)
      .map(({ x, y }, k) => Math.abs((x - (above[k]?.x ?? 0)) / (y - (above[k]?.y ?? 0))));
    const flank = slopes.find((slope) => Number.isFinite(slope) && slope < 5) ?? 0;
    expect((2 * Math.atan(flank) * 180) / Math.PI).toBeCloseTo(angle, 0);
  });

  it('says the size over the wires and the pitch diameter', () => {
    // As the worked check of over_wires has it, by numeric tangency.
    const { says } = drawn('pitch_diameter_of(12.6477 mm, 1.75 mm, 1.1 mm)');
    expect(says).toContain('12.648 mm over the wires at a pitch diameter of 10.863 mm');
  });
});

describe('every picture', () => {
  const named = allFormulas().filter(({ picture }) => picture !== null);

  it('that a formula names is there, and each that is there is named', () => {
    expect(new Set(named.map(({ picture }) => picture))).toEqual(new Set(PICTURES.keys()));
  });

  const lines = [
    'ball_on_shank(30 mm, 12 mm)',
    'ball_on_shank(30 mm, 24 mm)',
    'knee_schedule(26 mm, 25.34 mm, 12.7°, 26.5 mm, 13.2 mm, 2 mm)',
    'plain_indexing(13, head)',
    'fit(25 mm, H7, g6)',
    'fit(25 mm, H7, p6)',
    'bolt_circle(95 mm, 6, start: 30°)',
    'tailstock_setover(30 mm, 29 mm, 250 mm, 250 mm)',
    'taper_found([18.242, 18.251, 18.266] mm, [10, 88, 166] mm)',
    'screw_over_wires(M36x1.5-6g, 0.895 mm)',
    'over_wires(20 mm, 5 mm, 2.6 mm, thread_angle: 29°)',
    'screw_over_wires(M18, 2.4 mm)',
  ];

  it('is among those looked at here', () => {
    const looked = lines.map((line) => named.find(({ name }) => line.startsWith(`${name}(`))?.picture);
    expect(new Set(looked)).toEqual(new Set(PICTURES.keys()));
  });

  it.each(lines)('of %s is in the text colour only, and can be read aloud', (line) => {
    const { svg, says } = drawn(line);
    expect(svg).not.toMatch(/#[0-9a-f]{3}|rgb|style=|url\(/i);
    for (const [, colour] of svg.matchAll(/(?:fill|stroke)="([^"]*)"/g))
      expect(['none', 'currentColor']).toContain(colour);
    expect(says.length).toBeGreaterThan(30);
    expect(svg).not.toContain('NaN');
  });

  it('shows its figures in the units asked for', () => {
    const sheet = sheetOf('ball_on_shank(30 mm, 12 mm)');
    const row = sheet.rows().at(-1);
    const [svg = ''] = row ? picturesOf(sheet, row, { ...PREVIEW, units: 'in' }) : [];
    expect(svg).toContain('ring Ø1.1562 in');
  });
});
