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

  async what_suits_the_water_and_a_dose_open() {
    const url = await server();
    const { page, complaints } = await person();
    await goTo(page, url, 'water?place=A');
    await page.getByRole('button', { name: /^Oxygen/ }).click();
    await page.locator('[data-figure="water A oxygen_mg_l_low"]').click();
    await box(page).locator('.made .formula').first().waitFor();
    const low = await api(url, '/api/working?of=water&id=A&figure=oxygen_mg_l_low');
    assert.equal(one(await box(page).locator('.made .big b').innerText()), String(Number(low.value.toPrecision(4))));
    assert.deepEqual(await violations(page), []);
    await shoot(page, 'working-oxygen');
    await page.keyboard.press('Escape');
    await page.getByRole('button', { name: 'Dose', exact: true }).click();
    // What came with the answer is shown without asking again.
    const asked = [];
    page.on('request', (request) => { if (/api\/working/.test(request.url())) asked.push(request.url()); });
    const dose = page.locator('[data-figure="dose day-1 portion_g"]');
    const shown = one(await dose.innerText());
    await dose.click();
    await box(page).locator('.made .formula').first().waitFor();
    assert.ok(Math.abs(Number(one(await box(page).locator('.made .big b').innerText())) - Number(shown)) < 1);
    await box(page).getByRole('button', { name: /given in all/ }).click();
    await box(page).getByRole('heading', { name: 'base of the day' }).waitFor();
    assert.deepEqual(asked, []);
    assert.deepEqual(complaints, []);
    await page.context().close();
  },

  async a_working_is_told_in_the_language_of_the_reader() {
    const url = await server();
    const { page } = await person(PHONE, { locale: 'pt-PT' });
    await goTo(page, url, 'me');
    await page.getByRole('button', { name: /Português/ }).click();
    await goTo(page, url, 'fish');
    await page.locator('[data-figure="tank A density_kg_m3"]').click();
    await box(page).getByRole('heading', { name: 'densidade' }).waitFor();
    await box(page).getByText('quilos no tanque').waitFor();
    await shoot(page, 'working-pt');
    await page.context().close();
  },

  async possible_years_are_run_stopped_and_kept() {
    const url = await server();
    const { page, complaints } = await person();
    await goTo(page, url, 'year');
    await page.getByRole('link', { name: /possible years/ }).click();
    await page.locator('#years-count').fill('400');
    await page.locator('#years-ask').click();
    // Stopped in between it answers with the years there are.
    await page.waitForFunction(() => Number(document.querySelector('.working progress')?.value ?? 0) > 0.01, null, { timeout: 60000 });
    await page.getByRole('button', { name: 'Stop it' }).click();
    await page.getByText(/^Stopped: \d+ of 400 years/).waitFor({ timeout: 60000 });
    await page.locator('.chart-box svg').first().waitFor();
    assert.ok(await page.locator('.breaks li').count() > 0);
    // Every series of the answer can be chosen and is drawn, with its table.
    const which = page.getByLabel('Which figure');
    for (const key of await which.locator('option').evaluateAll((all) => all.map((o) => o.value))) {
      await which.selectOption(key);
      await page.locator('.chart').last().locator('.chart-box svg').waitFor();
    }
    await page.locator('.chart').last().locator('summary').click();
    assert.ok(await page.locator('.chart').last().locator('tbody tr').count() >= 50);
    assert.deepEqual(await violations(page), []);
    assert.deepEqual(await smallTargets(page), []);
    assert.ok(await overflow(page) <= 0);
    await shoot(page, 'possible');
    // Kept on the device: there after the page is opened anew, with its hour.
    await page.reload();
    await page.getByText(/worked out/).waitFor();
    await page.locator('.breaks li').first().waitFor();
    assert.deepEqual(complaints, []);
    await page.context().close();
  },

  async every_figure_that_can_be_tapped_has_a_working() {
    const url = await server();
    const { page } = await person(PHONE);
    for (const place of ['fish', 'beds?bed=H1-S1', 'beds?bed=H2-M3', 'orders', 'tunnels']) {
      await goTo(page, url, place);
      await page.waitForTimeout(300);
      const keys = await page.locator('[data-figure]').evaluateAll((all) => all.map((e) => e.dataset.figure));
      assert.ok(keys.length > 5, place);
      // All of a tank or bed; of many weeks of orders one in nine.
      const asked = [...new Set(keys)].filter((key, i) => !key.startsWith('order ') || i % 9 === 0);
      await Promise.all(asked.map(async (key) => {
        const [of, id, figure] = key.split(' ');
        const answer = await api(url, `/api/working?${new URLSearchParams({ of, id, figure })}`);
        assert.equal(answer.figure, figure, `${place}: ${key}: ${JSON.stringify(answer)}`);
      }));
    }
    await page.context().close();
  },
};
