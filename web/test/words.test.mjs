// Every catalogue has the keys of English, the same {facts} in each text, and
// nothing empty that English says.
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { test } from 'node:test';

const folder = new URL('../words/', import.meta.url);
const read = (name) => JSON.parse(readFileSync(new URL(name, folder), 'utf8'));
const english = read('en.json');
const texts = (value) => typeof value === 'string' ? [value] : Object.values(value);
const facts = (text) => [...text.matchAll(/\{(\w+)\}/g)].map((m) => m[1]).sort();

for (const name of readdirSync(folder)) {
  test(`${name} has the keys of English`, () => {
    assert.deepEqual(Object.keys(read(name)).sort(), Object.keys(english).sort());
  });
  test(`${name} says each thing with its facts`, () => {
    for (const [key, value] of Object.entries(read(name))) {
      const asked = facts(texts(english[key])[0]);
      for (const text of texts(value)) {
        assert.deepEqual(facts(text), asked, `${name} ${key}: ${text}`);
        assert.equal(text.trim() === '', texts(english[key])[0] === '', `${name} ${key} is empty`);
      }
      if (typeof english[key] === 'object') assert.ok('other' in value, `${name} ${key} has no plural`);
    }
  });
}

test('every word that the pages ask for is in the catalogue', () => {
  const source = new URL('../src/', import.meta.url);
  for (const file of readdirSync(source).filter((n) => n.endsWith('.tsx'))) {
    const text = readFileSync(new URL(file, source), 'utf8');
    for (const [, key] of text.matchAll(/\bt\('([\w.-]+)'/g)) {
      assert.ok(key in english, `${file} asks for "${key}"`);
    }
  }
});
