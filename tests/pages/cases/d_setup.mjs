// Set-up: a farm from blank to its first answer, faults in their place, two
// who change the same table.
import { api, assert, goTo, makeFarm, openFarm, person, shoot } from '../lib.mjs';

let farm = null;
async function server() {
  farm ??= await openFarm(makeFarm('setup'));
  return farm.url;
}
const next = (page) => page.locator('#hour-next').click();

export default {
  async a_blank_farm_comes_to_its_first_answer() {
    const blank = await openFarm(makeFarm('blank', { blank: true }));
    const { page, complaints } = await person();
    await page.goto(`${blank.url}/`);
    await page.getByRole('link', { name: 'Begin' }).click();
    await page.getByLabel('Name of the farm').fill('Alder Leat');
    await page.getByLabel('Time zone').fill('Europe/Lisbon');
    await next(page);
    await page.getByText('18 beds and 4 m³ of tanks').waitFor();
    await shoot(page, 'first-hour-beds');
    await next(page);
    await page.getByText('What do you grow?').waitFor();
    await page.getByLabel('H1-S1', { exact: true }).selectOption('lettuce-head');
    await page.getByLabel('H1-S2', { exact: true }).selectOption('basil-bunch');
    await page.getByRole('textbox', { name: 'A: How many' }).fill('120');
    await next(page);
    await page.locator('#order-more').click();
    await page.getByLabel('For whom').fill('Mill Café');
    await page.getByRole('textbox', { name: 'Units a week' }).fill('60');
    await next(page);
    await page.locator('#hour-plan').click();
    await page.locator('#hour-answer').waitFor({ timeout: 60000 });
    assert.match(await page.locator('#hour-answer').innerText(), /The week of .*: .* short|Nothing is short/);
    await shoot(page, 'first-hour-answer');
    await page.locator('#hour-accept').click();
    await page.getByText('Accepted.').waitFor({ timeout: 20000 });
    const told = await api(blank.url, '/api/farm');
    assert.equal(told.name, 'Alder Leat');
    assert.equal(told.beds.length, 18);
    assert.ok(told.plan !== null);
    await goTo(page, blank.url, 'round');
    await page.locator('.stop-body').first().waitFor();
    assert.deepEqual(complaints, []);
    await page.context().close();
  },

  async a_fault_is_shown_at_its_field_and_nothing_is_saved() {
    const url = await server();
    const { page } = await person();
    await goTo(page, url, 'setup?table=tanks');
    await page.locator('.row-head').first().click();
    await page.getByLabel(/^volume m3/).fill('plenty');
    await page.locator('#table-save').click();
    await page.getByText('Not saved: mend what is marked first.').waitFor();
    const bad = page.locator('.field.is-bad');
    assert.match(await bad.innerText(), /a number from 0\.05 to 1000/);
    assert.equal((await api(url, '/api/table?name=tanks')).rows[0].volume_m3, '6');
    await page.getByLabel(/^volume m3/).fill('6.4');
    await page.waitForTimeout(750); // two taps so close count as one
    await page.locator('#table-save').click();
    await page.getByText('Saved.').waitFor();
    assert.equal(Number((await api(url, '/api/table?name=tanks')).rows[0].volume_m3), 6.4);
    await page.context().close();
  },

  async two_who_change_one_table_both_keep_their_words() {
    const url = await server();
    const mine = await person();
    const theirs = await person();
    for (const [who, name] of [[mine, 'Reed and Sons'], [theirs, 'Alder Kitchen']]) {
      await goTo(who.page, url, 'setup?table=buyers');
      await who.page.locator('.row-head').first().click();
      await who.page.getByLabel('name', { exact: true }).fill(name);
    }
    await theirs.page.locator('#table-save').click();
    await theirs.page.getByText('Saved.').waitFor();
    await mine.page.locator('#table-save').click();
    const box = mine.page.getByRole('alert').filter({ hasText: 'Somebody else changed this table' });
    await box.waitFor();
    assert.match(await box.innerText(), /Alder Kitchen[\s\S]*Reed and Sons/);
    await shoot(mine.page, 'conflict');
    await mine.page.context().close();
    await theirs.page.context().close();
  },
};
