// The round: few taps, odd numbers asked about once, a tank out of line held.
import { api, assert, goTo, journal, makeFarm, openFarm, person, shoot, TODAY, untilTold } from '../lib.mjs';

let farm = null;
async function server() {
  farm ??= await openFarm(makeFarm('round'));
  return farm.url;
}
const stopOf = (page, id) => page.locator(`#stop-${id}`);

export default {
  async an_odd_reading_is_asked_about_once_and_its_tank_is_not_fed_until_seen() {
    const url = await server();
    const { page, complaints } = await person();
    await goTo(page, url, 'round');
    const stop = stopOf(page, 'tanks-loop-2');
    await stop.getByRole('button', { name: /Water temperature\s*B/ }).click();
    await page.locator('#item-value').fill('13');
    // Two taps at once: the second must not answer the question.
    await page.locator('#item-save').evaluate((button) => { button.click(); setTimeout(() => button.click(), 100); });
    await page.getByText('Is it really so?').waitFor();
    await page.waitForTimeout(800);
    assert.equal((await journal(url)).length, 0, 'nothing is told before the answer');
    await page.getByRole('button', { name: 'Yes, it is so' }).click();
    await untilTold(url, (e) => e.kind === 'read' && e.value === 13 && e.place === 'B', 'the reading');
    await stop.getByText('No feed until it is seen.').waitFor();
    const held = (await api(url, `/api/round?day=${TODAY}`)).stops.find((s) => s.id === 'tanks-loop-2')
      .items.find((i) => i.id === 'feed-B');
    assert.ok(held.hold, 'the server holds it, too');
    await shoot(page, 'round-held');
    await stop.locator('.usual').click();
    await untilTold(url, (e) => e.kind === 'as_usual' && e.stop === 'tanks-loop-2', 'the stop');
    assert.deepEqual((await journal(url)).filter((e) => e.kind === 'fed' && e.place === 'B'), []);
    assert.deepEqual(complaints, []);
    await page.context().close();
  },

  async the_round_takes_at_most_twelve_taps_and_a_double_tap_tells_once() {
    const url = (await openFarm(makeFarm('taps'))).url;
    const { page } = await person();
    await goTo(page, url, 'round');
    const round = await api(url, `/api/round?day=${TODAY}`);
    const eyes = round.stops.filter((s) => !s.hands);
    let taps = 0;
    for (const stop of eyes) {
      const button = stopOf(page, stop.id).locator('.usual');
      await button.waitFor();
      // A wet thumb: the second tap comes 120 ms after the first.
      if (taps === 0) {
        await button.scrollIntoViewIfNeeded();
        const box = await button.boundingBox();
        await page.mouse.click(box.x + 40, box.y + 30);
        await page.waitForTimeout(120);
        await page.mouse.click(box.x + 40, box.y + 30);
        await page.waitForTimeout(300);
        assert.equal(await page.locator('dialog[open]').count(), 0, 'the second tap opens nothing');
      } else {
        await button.click();
      }
      taps++;
      await stopOf(page, stop.id).getByText(/told/).first().waitFor();
      await page.waitForTimeout(1000);
    }
    assert.ok(taps <= 12, `${taps} taps`);
    await page.getByText(`${taps} of ${round.stops.length} stops told`).waitFor();
    await untilTold(url, (e) => e.kind === 'as_usual' && e.stop === eyes[eyes.length - 1].id, 'the last stop');
    const told = await journal(url);
    for (const stop of eyes) {
      assert.equal(told.filter((e) => e.kind === 'as_usual' && e.stop === stop.id).length, 1, stop.id);
    }
    const feeds = round.stops.flatMap((s) => s.items).filter((i) => i.kind === 'feed' && i.value.amount > 0);
    for (const feed of feeds) {
      const given = told.filter((e) => e.kind === 'fed' && e.place === feed.place);
      assert.deepEqual(given.map((e) => e.grams), [feed.value.amount]);
    }
    await shoot(page, 'round-told');
    await page.context().close();
  },

  async a_mistaken_tap_is_struck_through_and_stays_readable() {
    const url = await server();
    const { page } = await person();
    await goTo(page, url, 'round');
    await stopOf(page, 'nursery').locator('.usual').click();
    const [tap] = await untilTold(url, (e) => e.kind === 'as_usual' && e.stop === 'nursery', 'the tap');
    await goTo(page, url, 'journal');
    await page.getByRole('button', { name: /Strike through: As usual.*nursery/ }).click();
    await page.getByRole('button', { name: 'tapped by mistake' }).click();
    await untilTold(url, (e) => e.kind === 'struck' && e.strikes === tap.number, 'the strike');
    await page.locator('.is-struck', { hasText: 'nursery' }).waitFor();
    const struck = (await journal(url)).find((e) => e.number === tap.number);
    assert.equal(struck.struck_why, 'tapped by mistake');
    await page.context().close();
  },

  async a_trouble_is_told_by_one_tap_in_the_item() {
    const url = await server();
    const { page } = await person();
    await goTo(page, url, 'round');
    await stopOf(page, 'tanks-loop-1').getByRole('button', { name: /^Look/ }).click();
    await page.getByRole('group', { name: 'Where' }).getByRole('button', { name: 'C' }).click();
    await page.getByRole('button', { name: 'little or no water comes in' }).click();
    const [seen] = await untilTold(url, (e) => e.kind === 'seen' && e.cause === 'no-flow', 'the trouble');
    assert.equal(seen.place, 'C');
    await page.context().close();
  },
};
