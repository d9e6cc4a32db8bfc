// Figures that open to how they were made: what is at the end of the working is
// what the page shows, and an input opens in its turn.
import { api, assert, goTo, makeFarm, openFarm, overflow, person, PHONE, shoot, smallTargets, TODAY, violations } from '../lib.mjs';

let farm = null;
async function server() {
  farm ??= await openFarm(makeFarm('opens'));
  return farm.url;
}
const one = (text) => text.replace(/[^\d.,-]/g, '').replace(/,/g, '');
const box = (page) => page.locator('dialog[open]').last();

export default {
  async the_feed_of_a_tank_opens_to_its_working() {
    const url = await server();
    const { page, complaints } = await person();
    await goTo(page, url, 'fish');
    const figure = page.locator('[data-figure="tank B feed_g"]');
    const shown = one(await figure.innerText());
    await figure.click();
    const sheet = box(page);
    await sheet.getByRole('heading', { name: 'What goes in' }).waitFor();
    assert.equal(one(await sheet.locator('.made .big b').innerText()), shown);
    const asked = await api(url, '/api/working?of=tank&id=B&figure=feed_g');
    assert.equal(String(Math.round(asked.value)), shown);
    // The equation, the numbers put in, where they come from, the sources.
    assert.equal(await sheet.locator('.formula').count(), 2);
    assert.equal(await sheet.locator('.goes-in > li').count(), asked.inputs.length);
    assert.ok(await sheet.locator('.from.is-guess').count() > 0);
    await sheet.getByText(asked.sources[0].key, { exact: true }).last().waitFor();
    assert.deepEqual(await violations(page), []);
    assert.deepEqual(await smallTargets(page), []);
    assert.ok(await overflow(page) <= 0);
    await shoot(page, 'working-feed');
    assert.deepEqual(complaints, []);
    await page.context().close();
  },

  async a_density_opens_further_down_and_back_by_keyboard() {
    const url = await server();
    const { page, complaints } = await person();
    await goTo(page, url, 'fish');
    await page.locator('[data-figure="tank A density_kg_m3"]').focus();
    await page.keyboard.press('Enter');
    await box(page).getByRole('heading', { name: 'density' }).waitFor();
    await box(page).getByRole('button', { name: /kilos in the tank/ }).focus();
    await page.keyboard.press('Enter');
    await box(page).getByRole('heading', { name: 'kilos in the tank' }).waitFor();
    await box(page).getByRole('button', { name: 'Back' }).click();
    await box(page).getByRole('heading', { name: 'density' }).waitFor();
    await page.keyboard.press('Escape');
    await page.waitForFunction(() => document.querySelector('dialog[open]') === null);
    assert.deepEqual(complaints, []);
    await page.context().close();
  },

  async the_first_pick_of_a_bed_opens_over_the_beds_sheet() {
    const url = await server();
    const beds = (await api(url, '/api/beds')).stops.flatMap((s) => s.beds);
    const bed = beds.find((b) => b.now.some((x) => x.place === 'floor' && x.pick_on !== null && x.pick_on >= TODAY && x.stage === 'growing'));
    const batch = bed.now.find((x) => x.pick_on !== null && x.pick_on >= TODAY && x.stage === 'growing');
    const { page, complaints } = await person();
    await goTo(page, url, `beds?bed=${bed.id}`);
    for (const figure of ['pick_on', 'age_degc_d', 'units']) {
      await page.locator(`dialog [data-figure="batch ${batch.batch} ${figure}"]`).first().click();
      await box(page).locator('.made .formula').first().waitFor();
      const working = await api(url, `/api/working?of=batch&id=${batch.batch}&figure=${figure}`);
      assert.equal(working.value, batch[figure]);
      if (figure === 'pick_on') {
        assert.deepEqual(await violations(page), []);
        assert.deepEqual(await smallTargets(page), []);
        await shoot(page, 'working-pick');
      }
      await page.keyboard.press('Escape');
      await page.waitForFunction(() => document.querySelectorAll('dialog[open]').length === 1);
    }
    assert.deepEqual(complaints, []);
    await page.context().close();
  },

  async every_figure_that_can_be_tapped_has_a_working() {
    const url = await server();
    const { page } = await person(PHONE);
    for (const place of ['fish', 'beds?bed=H1-S1', 'beds?bed=H2-M3']) {
      await goTo(page, url, place);
      await page.waitForTimeout(300);
      const keys = await page.locator('[data-figure]').evaluateAll((all) => all.map((e) => e.dataset.figure));
      assert.ok(keys.length > 5, place);
      for (const key of new Set(keys)) {
        const [of, id, figure] = key.split(' ');
        const answer = await api(url, `/api/working?${new URLSearchParams({ of, id, figure })}`);
        assert.equal(answer.figure, figure, `${place}: ${key}: ${JSON.stringify(answer)}`);
      }
    }
    await page.context().close();
  },
};
