import { describe, expect, it } from 'vitest';
import { pliesFaultWords } from '../../../app/messages/typed.ts';
import { readPlies, formatPlies } from '../../../app/document/edit/plies.ts';

const cloths = [
  { id: 'carbon-twill-200', name: 'Carbon 2/2 twill 200 g/m2', arealGM2: 200 },
  { id: 'carbon-plain-160', name: 'Carbon plain 160 g/m2', arealGM2: 160 },
  { id: 'glass-twill-163', name: 'Glass 2/2 twill 163 g/m2', arealGM2: 163 },
];
const read = (text: string) => {
  const result = readPlies(text, cloths);
  return result.ok
    ? result.plies.map((p) => `${p.cloth}@${p.angleDeg}`)
    : pliesFaultWords(result.fault);
};

describe('plies typed as one line', () => {
  it.each([
    ['2 x CARBON 200 @ 0/45', ['carbon-twill-200@0', 'carbon-twill-200@45']],
    ['4x carbon 160 @ 0/45', ['0', '45', '0', '45'].map((a) => `carbon-plain-160@${a}`)],
    ['glass 163 @ ±45', ['glass-twill-163@45', 'glass-twill-163@-45']],
    ['carbon-plain-160', ['carbon-plain-160@0']],
    [
      'glass 163 @ 45, 2 x Carbon 2/2 twill 200 g/m2 @ 0',
      ['glass-twill-163@45', 'carbon-twill-200@0', 'carbon-twill-200@0'],
    ],
    ['2x200g carbon twill', ['carbon-twill-200@0', 'carbon-twill-200@0']],
    ['2 carbon 200', ['carbon-twill-200@0', 'carbon-twill-200@0']],
    ['3 x 160 gsm carbon @ 45', Array.from({ length: 3 }, () => 'carbon-plain-160@45')],
    ['2 x 6 oz carbon', ['carbon-twill-200@0', 'carbon-twill-200@0']],
    ['4.8oz glass', ['glass-twill-163@0']],
    ['', []],
  ])('%s', (text, expected) => {
    expect(read(text)).toEqual(expected);
  });

  it.each([
    ['carbon @ 0', '"carbon" fits several cloths: Carbon 2/2 twill 200, Carbon plain 160.'],
    [
      'hemp 200',
      '"hemp 200" is no cloth of the library: Carbon 2/2 twill 200, Carbon plain 160, Glass 2/2 twill 163.',
    ],
    ['twill @ 0', '"twill" fits several cloths: Carbon 2/2 twill 200, Glass 2/2 twill 163.'],
    [
      '9 oz',
      '"9 oz" is no cloth of the library: Carbon 2/2 twill 200, Carbon plain 160, Glass 2/2 twill 163.',
    ],
    ['2 x carbon 200 @ 0/120', '"120" is not an angle: −90 to 90 degrees from the 0 line.'],
    ['1 x carbon 200 @ 0/45', '1 ply but 2 angles in "1 x carbon 200 @ 0/45".'],
    ['31 x carbon 200, 30 x glass 163', 'At most 60 plies.'],
    [
      '@',
      '"@" is no cloth of the library: Carbon 2/2 twill 200, Carbon plain 160, Glass 2/2 twill 163.',
    ],
    ['900 x carbon 200', '1 to 60 plies, not 900.'],
  ])('%s is refused with a reason', (text, why) => {
    expect(read(text)).toBe(why);
  });

  it('reads back what it writes', () => {
    const plies = [
      { cloth: 'glass-twill-163', angleDeg: 45 },
      { cloth: 'carbon-twill-200', angleDeg: 0 },
      { cloth: 'carbon-twill-200', angleDeg: 0 },
      { cloth: 'carbon-plain-160', angleDeg: 0 },
      { cloth: 'carbon-plain-160', angleDeg: -45 },
    ];
    expect(readPlies(formatPlies(plies, cloths), cloths)).toEqual({ ok: true, plies });
  });
});
