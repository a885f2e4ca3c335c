/** Which addresses are files beside the note, which files are pictures, and how one becomes part of a sheet. */
import { describe, expect, it } from 'vitest';
import { escape, element, prose } from '../../src/sheet/html';
import { type ImageFile, Images, base64, localPath } from '../../src/sheet/images';

describe('an address', () => {
  it.each([
    ['a.png', 'a.png'],
    ['photos/old%20part.png', 'photos/old part.png'],
    ['../a.png', '../a.png'],
    ['a.png?size=2', 'a.png'],
    ['a.png#top', 'a.png'],
    ['c-1.png', 'c-1.png'],
    ['https://x.example/a.png', null],
    ['data:image/png;base64,AA', null],
    ['c:/a.png', null],
    ['//x.example/a.png', null],
    ['\\\\host\\a.png', null],
    ['/etc/a.png', null],
    ['#top', null],
    ['', null],
    // What only shows when it is decoded, and what cannot be.
    ['%2Fetc/a.png', null],
    ['%5Cetc', null],
    ['%23top', '#top'],
    ['javascript%3Aalert(1)', null],
    ['a%00.png', null],
    ['100%.png', null],
  ])('%s is %s', (address, path) => {
    expect(localPath(address)).toBe(path);
  });
});

describe('a picture', () => {
  const of = (text: string): Uint8Array => Uint8Array.from([...text].map((char) => char.charCodeAt(0)));
  const html = (file: ImageFile, words = 'p'): string =>
    new Images(new Map([['a.png', file]])).html('a.png', words, 0);

  // First bytes as the formats give them: PNG (ISO/IEC 15948), JPEG, GIF89a, WebP in a RIFF file.
  it.each([
    ['\x89PNG\r\n\x1a\nrest', 'image/png'],
    ['\xff\xd8\xff\xe0', 'image/jpeg'],
    ['GIF89a', 'image/gif'],
    ['RIFF\x01\x02\x03\x04WEBPVP8', 'image/webp'],
    ['\x89PNG\r\n\x1a ', null],
    ['\xff\xd8\xfe', null],
    [' GIF89a', null],
    ['WEBP', null],
    ['<svg/>', null],
    ['', null],
  ])('%j is known by its first bytes as %s', (bytes, type) => {
    const made = html({ bytes: of(bytes) });
    expect(/^<img src="data:([^;]*);base64,/.exec(made)?.[1] ?? null).toBe(type);
    if (type === null) expect(made).toBe('<span class="sheet-no-image">[p]</span>');
  });

  it('without words is told of by its address', () => {
    expect(html({ unreadable: 'no' }, '')).toBe('<span class="sheet-no-image">[a.png]</span>');
  });

  it('becomes text as everywhere, of any length', () => {
    for (const length of [0, 1, 2, 3, 4, 100, 6143, 6144, 6145, 20_000, 200_000]) {
      const bytes = Uint8Array.from({ length }, (_, i) => (i * 151 + (i >> 3)) & 255);
      expect(base64(bytes)).toBe(Buffer.from(bytes).toString('base64'));
    }
  });

  it('is left out beyond 8 MB, and beyond 40 MB with those before it', () => {
    const bytes = new Uint8Array(8_000_001);
    bytes.set(of('GIF89a'));
    const images = new Images(
      new Map([
        ['large', { bytes }],
        ['whole', { bytes: bytes.subarray(0, 8_000_000) }],
        ['small', { bytes: of('GIF89a') }],
      ]),
    );
    const taken = ['large', 'whole', 'whole', 'whole', 'whole', 'whole', 'small'].map((path, line) =>
      images.html(path, '', line).startsWith('<img'),
    );
    expect(taken).toEqual([false, true, true, true, true, true, false]);
    expect(images.findings.map(({ code, line }) => [code, line])).toEqual([
      ['image-too-large', 0],
      ['image-too-large', 6],
    ]);
  });
});

describe('text in a sheet', () => {
  it('cannot begin or end anything', () => {
    expect(escape(`a & b < c > "d" 'e'`)).toBe('a &amp; b &lt; c &gt; &quot;d&quot; &#39;e&#39;');
    expect(element('p', { class: '"><b>', id: null, span: 2 }, 'inner', '<b>')).toBe(
      '<p class="&quot;&gt;&lt;b&gt;" span="2">inner<b></p>',
    );
    expect(prose('write `a < b`, not `c`')).toBe('write <code>a &lt; b</code>, not <code>c</code>');
    expect(escape('a\u202eb\u2069')).toBe('a[U+202E]b[U+2069]');
  });
});
