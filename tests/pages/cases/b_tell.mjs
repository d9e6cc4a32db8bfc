// Work told: a sowing, a grading with its balance, a poor tray, a reading with
// its answer, two pickers without signal.
import { api, assert, DESK, goTo, journal, makeFarm, openFarm, person, shoot, TODAY, untilTold } from '../lib.mjs';

let farm = null;
async function server() {
  farm ??= await openFarm(makeFarm('tell'));
  return farm.url;
}

export default {
  async a_sowing_is_told_with_its_seeds() {
    const url = await server();
    const { page } = await person();
    await goTo(page, url, 'tell?kind=sown');
    await page.getByLabel('Crop').selectOption('basil-bunch');
    await page.getByRole('textbox', { name: 'How many' }).fill('116');
    await page.getByRole('textbox', { name: 'Lot' }).fill('BAS-27-3');
    await page.locator('#tell-save').click();
    const [sown] = await untilTold(url, (e) => e.kind === 'sown', 'the sowing');
    assert.deepEqual([sown.way, sown.count, sown.lot, sown.happened_on], ['basil-bunch', 116, 'BAS-27-3', TODAY]);
    await page.context().close();
  },

  async a_form_without_what_is_needed_says_so_and_tells_nothing() {
    const url = await server();
    const before = (await journal(url)).length;
    const { page } = await person();
    await goTo(page, url, 'tell?kind=sown');
    await page.locator('#tell-save').click();
    await page.getByText('This is needed').first().waitFor();
    assert.equal((await journal(url)).length, before);
    await page.context().close();
  },

  async what_is_left_of_a_pick_stands_in_the_store_with_its_way() {
    const url = await server();
    const entries = [
      { kind: 'picked', way: 'chard-bunch', place: 'H2-M1', quantity: 9, unit: 'bunch' },
      { kind: 'delivered', buyer: 'hotel', product: 'chard', quantity: 5, unit: 'bunch' },
    ].map((e, i) => ({ uid: `store-${i}`, happened_on: TODAY, ...e }));
    const told = await fetch(`${url}/api/journal`, {
      method: 'POST', headers: { 'content-type': 'application/json', origin: url }, body: JSON.stringify({ entries }),
    });
    assert.equal(told.status, 200);
    const { page } = await person();
    await goTo(page, url, 'orders');
    const store = page.locator('section', { has: page.getByRole('heading', { name: 'In the cold store' }) });
    await store.getByRole('button', { name: 'chard' }).click();
    const lot = page.locator('dialog section', { hasText: `chard-bunch.H2-M1.${TODAY}` });
    await lot.getByText('4 bunches left').waitFor();
    await lot.getByText('hotel').waitFor();
    await shoot(page, 'store');
    await page.context().close();
  },

  async a_grading_shows_both_tanks_before_it_is_told() {
    const url = await server();
    const { page, complaints } = await person();
    await goTo(page, url, 'fish');
    const before = (await api(url, '/api/fish')).tanks.find((x) => x.id === 'E');
    await page.getByRole('button', { name: 'Fish graded: E' }).click();
    await page.getByLabel('To which tank').selectOption('D');
    await page.getByRole('textbox', { name: 'How many' }).fill('6');
    await page.getByRole('textbox', { name: 'Weight of one, g' }).fill('510');
    const balance = page.locator('.balance');
    const left = Math.round(before.count) - 6;
    await balance.getByText(String(left), { exact: true }).waitFor();
    const mean = (1000 * before.kg - 6 * 510) / (before.count - 6);
    await balance.getByText(String(Math.round(mean)), { exact: true }).waitFor();
    await shoot(page, 'grading');
    await page.locator('#tell-save').click();
    const [graded] = await untilTold(url, (e) => e.kind === 'graded', 'the grading');
    assert.deepEqual([graded.place, graded.to_place, graded.count, graded.mean_g], ['E', 'D', 6, 510]);
    const after = (await api(url, '/api/fish')).tanks;
    assert.ok(Math.abs(after.find((x) => x.id === 'E').count - left) < 1);
    assert.ok(Math.abs(after.find((x) => x.id === 'D').count - 6) < 1);
    assert.deepEqual(complaints, []);
    await page.context().close();
  },

  async a_poor_tray_is_counted_from_the_beds() {
    const url = await server();
    const { page } = await person();
    await goTo(page, url, 'beds');
    await page.getByRole('link', { name: /^Count: / }).first().click();
    await page.getByRole('textbox', { name: 'How many' }).fill('17');
    await page.locator('#tell-save').click();
    const [emerged] = await untilTold(url, (e) => e.kind === 'emerged', 'the count');
    assert.equal(emerged.count, 17);
    assert.ok(emerged.batch.length > 0);
    await page.context().close();
  },

  async a_reading_has_its_answer_beside_it_and_is_told() {
    const url = await server();
    const { page, complaints } = await person();
    await goTo(page, url, 'water');
    await page.getByRole('button', { name: 'A', exact: true }).click();
    await page.getByRole('button', { name: /^Oxygen/ }).click();
    await page.locator('#reading-value').fill('2.4');
    await page.locator('.finding').first().waitFor();
    await page.getByText('Feed: none').waitFor();
    await shoot(page, 'reading');
    await page.locator('#reading-tell').click();
    const [read] = await untilTold(url, (e) => e.kind === 'read', 'the reading');
    assert.deepEqual([read.place, read.quantity_key, read.value], ['A', 'oxygen_mg_l', 2.4]);
    assert.deepEqual(complaints, []);
    await page.context().close();
  },

  async a_photo_is_kept_as_it_is_and_opens_again() {
    const url = await server();
    const { page } = await person();
    const photo = Buffer.from([0xff, 0xd8, 0xff, 0xe0, 0, 16, 0x4a, 0x46, 0x49, 0x46, 0, 1, 27]);
    await goTo(page, url, 'round');
    await page.locator('.other').first().click();
    await page.locator('input[type=file]').setInputFiles({ name: 'leaf.jpg', mimeType: 'image/jpeg', buffer: photo });
    const [seen] = await untilTold(url, (e) => e.kind === 'seen' && e.blob !== undefined, 'the photo');
    const again = await fetch(`${url}/api/blob?sha256=${seen.blob}`);
    assert.deepEqual(Buffer.from(await again.arrayBuffer()), photo);
    await page.context().close();
  },

  async a_spoken_note_is_kept_and_can_be_heard_again() {
    const url = await server();
    const { page, complaints } = await person();
    await goTo(page, url, 'round');
    await page.locator('.other').first().click();
    await page.getByRole('button', { name: 'Voice', exact: true }).click();
    await page.getByRole('button', { name: 'Speak now' }).click();
    await page.waitForTimeout(900);
    await page.getByRole('button', { name: 'That was it' }).click();
    const [seen] = await untilTold(url, (e) => e.kind === 'seen' && e.blob !== undefined && e.text === 'Voice', 'the note');
    const again = await fetch(`${url}/api/blob?sha256=${seen.blob}`);
    assert.match(again.headers.get('content-type'), /^audio\//);
    assert.ok((await again.arrayBuffer()).byteLength > 500);
    const played = await page.evaluate((from) => new Promise((resolve) => {
      const audio = new Audio(from);
      audio.onplaying = () => resolve(true);
      audio.onerror = () => resolve(false);
      void audio.play();
    }), `/api/blob?sha256=${seen.blob}`);
    assert.ok(played);
    assert.deepEqual(complaints, []);
    await page.context().close();
  },

  async can_i_take_this_order_is_answered_with_what_gives_way() {
    const url = await server();
    const { page, complaints } = await person(DESK);
    await goTo(page, url, 'year');
    await page.getByLabel('What', { exact: true }).selectOption('cucumber');
    await page.locator('#can-ask').click();
    await page.locator('.answer').waitFor({ timeout: 60000 });
    assert.match(await page.locator('.answer').innerText(), /^(Yes|Yes, if|No)\s[\s\S]* of \d+ units can be kept/);
    assert.deepEqual(complaints, []);
    await page.context().close();
  },

  async two_pick_the_same_bed_without_signal_and_both_picks_survive() {
    const url = await server();
    const pickers = [];
    for (const [heads, lot] of [['11', 'first'], ['7', 'second']]) {
      const one = await person();
      await goTo(one.page, url, 'tell?kind=picked&place=H1-S1&way=lettuce-head&unit=head');
      // The page is kept by now; the tunnel begins.
      await one.page.evaluate(() => navigator.serviceWorker.ready);
      await one.context.setOffline(true);
      await one.page.getByRole('textbox', { name: 'How much' }).fill(heads);
      await one.page.getByRole('textbox', { name: 'In your words' }).fill(lot);
      await one.page.locator('#tell-save').click();
      await one.page.getByText('1 not yet sent').first().waitFor();
      pickers.push(one);
    }
    assert.equal((await journal(url, { kind: 'picked', place: 'H1-S1' })).length, 0);
    // The first closes the tab and opens it again, still without signal.
    const [first, second] = pickers;
    await first.page.close();
    first.page = await first.context.newPage();
    await first.page.goto(`${url}/#/journal`);
    await first.page.getByText('1 not yet sent').first().waitFor();
    await shoot(first.page, 'not-yet-sent');
    for (const one of pickers) await one.context.setOffline(false);
    for (const one of pickers) {
      await one.page.evaluate(() => dispatchEvent(new Event('online')));
    }
    await untilTold(url, (e) => e.kind === 'picked' && e.text === 'second', 'the second pick');
    await untilTold(url, (e) => e.kind === 'picked' && e.text === 'first', 'the first pick');
    const picks = await journal(url, { kind: 'picked', place: 'H1-S1' });
    assert.deepEqual(picks.map((e) => e.quantity).sort((a, b) => a - b), [7, 11]);
    assert.equal(new Set(picks.map((e) => e.device)).size, 2);
    await second.page.getByText('not yet sent').first().waitFor({ state: 'detached' });
    for (const one of pickers) await one.context.close();
  },

  async entries_told_without_signal_go_out_in_their_order_exactly_once() {
    const url = await server();
    const { page, context } = await person();
    await goTo(page, url, 'round');
    await page.evaluate(() => navigator.serviceWorker.ready);
    // Every answer of the server is lost on its way back, twice.
    let lost = 0;
    await context.route('**/api/journal', async (route) => {
      if (route.request().method() !== 'POST' || lost >= 2) return route.continue();
      lost++;
      await route.fetch();
      return route.abort();
    });
    for (const text of ['one', 'two', 'three']) {
      await goTo(page, url, 'round');
      await goTo(page, url, 'tell?kind=seen');
      await page.getByRole('textbox', { name: 'In your words' }).fill(`order ${text}`);
      await page.locator('#tell-save').click();
      await page.getByText('Told.').waitFor();
    }
    for (let i = 0; i < 4; i++) {
      await page.evaluate(() => dispatchEvent(new Event('online')));
      await page.waitForTimeout(250);
    }
    const notes = (await journal(url, { kind: 'seen' })).filter((e) => /^order/.test(e.text))
      .sort((a, b) => a.number - b.number);
    assert.equal(lost, 2);
    assert.deepEqual(notes.map((e) => e.text), ['order one', 'order two', 'order three']);
    await context.close();
  },
};
