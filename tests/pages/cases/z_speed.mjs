// The first useful paint of Round on a phone four times slower than this
// machine, and what the first screen has to fetch.
import { api, assert, makeFarm, openFarm, person, TODAY } from '../lib.mjs';

const PAINT_MS = 1500;
const FIRST_BYTES = 60000; // script, compressed
const ALL_BYTES = 250000;

export default {
  async the_first_screen_is_useful_within_one_and_a_half_seconds_on_a_slow_phone() {
    const { url } = await openFarm(makeFarm('speed'));
    await api(url, `/api/round?day=${TODAY}`); // the server has worked it out once
    const took = [];
    let script = 0;
    // The best of a few: other work on this machine only ever adds.
    for (let i = 0; i < 6 && !(took[0] <= PAINT_MS); i++) {
      const { page, context } = await person(undefined, { serviceWorkers: 'block' });
      const client = await context.newCDPSession(page);
      await client.send('Emulation.setCPUThrottlingRate', { rate: 4 });
      await client.send('Network.enable');
      script = 0;
      const scripts = new Set();
      client.on('Network.responseReceived', (e) => { if (e.type === 'Script') scripts.add(e.requestId); });
      client.on('Network.loadingFinished', (e) => { if (scripts.has(e.requestId)) script += e.encodedDataLength; });
      await page.addInitScript(() => {
        new MutationObserver((_, watch) => {
          if (document.querySelector('.usual') === null) return;
          watch.disconnect();
          requestAnimationFrame(() => requestAnimationFrame(() => { globalThis.usefulAt = performance.now(); }));
        }).observe(document, { childList: true, subtree: true });
      });
      await page.goto(`${url}/`);
      await page.waitForFunction(() => globalThis.usefulAt !== undefined);
      took.push(await page.evaluate(() => globalThis.usefulAt));
      took.sort((a, b) => a - b);
      await context.close();
    }
    console.log(`      useful after ${took.map((ms) => ms.toFixed(0)).join(', ')} ms; scripts fetched ${(script / 1000).toFixed(1)} kB`);
    assert.ok(took[0] <= PAINT_MS, `${took[0]} ms`);
    assert.ok(script <= ALL_BYTES);
  },

  async the_first_script_fits_its_budget_as_the_server_sends_it() {
    const { url } = await openFarm(makeFarm('size'));
    const size = async (name) => {
      const answer = await fetch(`${url}/${name}`, { headers: { 'Accept-Encoding': 'gzip' } });
      assert.equal(answer.status, 200);
      const text = await answer.text();
      return { bytes: Number(answer.headers.get('content-length')), text };
    };
    const seen = new Map();
    const follow = async (name) => {
      if (seen.has(name)) return;
      const { bytes, text } = await size(name);
      seen.set(name, bytes);
      for (const [, next] of text.matchAll(/(?:from|import)\s*"\.\/([\w-]+\.js)"/g)) await follow(next);
    };
    await follow('app.js');
    const total = [...seen.values()].reduce((a, b) => a + b, 0);
    console.log(`      first screen: ${seen.size} scripts, ${(total / 1000).toFixed(1)} kB of ${FIRST_BYTES / 1000}`);
    assert.ok(total > 5000 && total <= FIRST_BYTES, `${total}`);
  },
};
