// The words on their grounds, against WCAG 2.2: main text 7:1 (AAA), all other
// text 4.5:1, in light and in dark.
// Source: [WCAG22] W3C, Web Content Accessibility Guidelines 2.2, definitions of
// relative luminance and contrast ratio; success criteria 1.4.3 and 1.4.6.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { test } from 'node:test';

const css = readFileSync(new URL('../src/app.css', import.meta.url), 'utf8');
const roots = [...css.matchAll(/:root \{([^}]*)\}/g)].map((m) => m[1]);
const palette = (text) => Object.fromEntries(
  [...text.matchAll(/--([\w-]+):\s*(#[0-9a-f]{6})/g)].map((m) => [m[1], m[2]]));
const light = palette(roots[0]);
const dark = { ...light, ...palette(roots[1]) };

function luminance(hex) {
  const [r, g, b] = [1, 3, 5].map((i) => parseInt(hex.slice(i, i + 2), 16) / 255)
    .map((c) => c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4);
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}
function contrast(a, b) {
  const [high, low] = [luminance(a), luminance(b)].sort((x, y) => y - x);
  return (high + 0.05) / (low + 0.05);
}

test('black on white is 21 to 1', () => {
  assert.ok(Math.abs(contrast('#000000', '#ffffff') - 21) < 1e-9);
});
for (const [name, colours] of [['light', light], ['dark', dark]]) {
  test(`main text stands 7 to 1 on every ground, ${name}`, () => {
    for (const ground of ['paper', 'card', 'dry', 'pale', 'short-pale', 'over-pale']) {
      const ratio = contrast(colours.ink, colours[ground]);
      assert.ok(ratio >= 7, `ink on ${ground}: ${ratio.toFixed(2)}`);
    }
    for (const ground of ['paper', 'card']) {
      const ratio = contrast(colours['ink-2'], colours[ground]);
      assert.ok(ratio >= 7, `ink-2 on ${ground}: ${ratio.toFixed(2)}`);
    }
  });
  test(`all other text stands 4.5 to 1, ${name}`, () => {
    for (const [ink, ground] of [['water', 'paper'], ['water', 'card'], ['water', 'pale'], ['water-ink', 'water'],
      ['short', 'card'], ['short', 'paper'], ['short', 'short-pale'], ['over', 'over-pale'], ['over', 'card'], ['ink-2', 'dry']]) {
      const ratio = contrast(colours[ink], colours[ground]);
      assert.ok(ratio >= 4.5, `${ink} on ${ground}: ${ratio.toFixed(2)}`);
    }
  });
  test(`edges of controls stand 3 to 1, ${name}`, () => {
    for (const ground of ['paper', 'card']) {
      assert.ok(contrast(colours.edge, colours[ground]) >= 3, ground);
    }
  });
}
