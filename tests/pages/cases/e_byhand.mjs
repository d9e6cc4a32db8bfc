// A plan changed by hand: what breaks is told at once, it is accepted and taken
// back; a step of the fish; and two plans compared.
import { api, assert, DESK, goTo, makeFarm, openFarm, overflow, person, PHONE, shoot, smallTargets, violations } from '../lib.mjs';

/** A planned batch of the floor with a bar on the page, in the first tunnel. */
async function aBatch(url) {
  const year = await api(url, '/api/year');
  const farm = await api(url, '/api/farm');
  const tunnel = farm.beds[0].tunnel;
  const beds = farm.beds.filter((b) => b.tunnel === tunnel).map((b) => b.id);
  const alone = (b) => year.batches.filter((o) => o.bed === b.bed && o.way === b.way && o.set_on === b.set_on).length === 1;
  const batch = year.batches.find((b) => b.place === 'floor' && beds.includes(b.bed) && b.set_on > '2027-03-20' && alone(b));
  assert.ok(batch, 'the demo plans a batch of the floor');
  return { year, batch };
}
const openBatch = async (page, batch) => {
  await page.locator('.bedyear g.batch').first().waitFor();
  const all = page.locator(`.bedyear g.batch[aria-label^="${batch.way} ${batch.bed} "]`);
  for (let i = 0; i < await all.count(); i++) {
    await all.nth(i).focus();
    await page.keyboard.press('Enter');
    const days = await page.locator('.sheet table').innerText();
    const set = new Date(`${batch.set_on}T12:00Z`).toLocaleDateString('en-GB', { day: 'numeric', month: 'short', year: 'numeric', timeZone: 'UTC' });
    if (days.includes(set)) return;
    await page.keyboard.press('Escape');
  }
  throw new Error(`no bar for ${batch.id}`);
};

const tried = async (url, changes) => (await fetch(`${url}/api/alter`, {
  method: 'POST', headers: { 'Content-Type': 'application/json' }, body: JSON.stringify({ plan: 'accepted', changes }),
})).json();

export default {
  async a_batch_moved_by_hand_tells_what_breaks_and_one_left_out_is_accepted_and_taken_back() {
    const { url } = await openFarm(makeFarm('byhand'));
    const { year, batch } = await aBatch(url);
    const { page, complaints } = await person(PHONE);
    await goTo(page, url, 'year');
    await openBatch(page, batch);
    // Over another batch's place: in a bed that is full then.
    let other = null;
    for (const bed of new Set(year.batches.map((b) => b.bed))) {
      const found = await tried(url, [{ batch: batch.id, bed }]);
      if (found.breaks?.some((b) => b.kind === 'place')) { other = bed; break; }
    }
    assert.ok(other, 'a bed that is full');
    await page.locator('.by-hand select').selectOption(other);
    await page.locator('#hand-answer .is-short').first().waitFor();
    const told = await page.locator('#hand-answer').innerText();
    assert.match(told, /Not possible so/);
    assert.match(told, /is held twice/);
    assert.ok(told.includes(other));
    assert.equal(await page.locator('#hand-accept').count(), 0, 'what cannot be is not accepted');
    assert.deepEqual(await violations(page), []);
    assert.deepEqual(await smallTargets(page), []);
    assert.ok(await overflow(page) <= 0);
    await page.locator('#hand-answer').scrollIntoViewIfNeeded();
    await shoot(page, 'byhand-breaks');
    // Left out: that can be, and costs what it brought.
    await page.locator('#hand-drop').focus();
    await page.keyboard.press('Enter');
    await page.locator('#hand-accept').waitFor();
    await shoot(page, 'byhand-fits');
    await page.locator('#hand-accept').focus();
    await page.keyboard.press('Enter');
    await page.locator('#hand-back').waitFor();
    const after = await api(url, '/api/year');
    assert.ok(!after.batches.some((b) => b.id === batch.id));
    assert.equal(after.batches.length, year.batches.length - 1);
    await page.locator('#hand-back').click();
    await page.getByText('Taken back').waitFor();
    const back = await api(url, '/api/year');
    assert.ok(back.batches.some((b) => b.id === batch.id));
    assert.ok(Math.abs(back.value - year.value) < 0.01, `${back.value} ${year.value}`);
    assert.deepEqual(complaints, []);
  },

  async two_plans_are_compared_by_value_weeks_and_batches() {
    const { url } = await openFarm(makeFarm('compared'));
    const { batch } = await aBatch(url);
    const { page, complaints } = await person(DESK);
    await goTo(page, url, 'year');
    await page.getByText('There is no other plan yet').waitFor();
    await openBatch(page, batch);
    await page.locator('#hand-drop').click();
    await page.locator('#hand-keep').click();
    await page.getByText('It can be compared below').waitFor();
    await page.locator('#hand-leave').click();
    const compare = page.locator('#compare');
    await compare.getByText('1 batch differs').click();
    await compare.locator('details table').waitFor();
    assert.match(await compare.locator('details').first().innerText(), new RegExp(batch.bed));
    const sides = await api(url, '/api/compare?one=changed&two=accepted');
    assert.equal(sides.batches.length, 1);
    assert.equal(sides.batches[0].units_before, 0);
    assert.equal(sides.batches[0].units_after, batch.units);
    // The kept one is shown in place of the accepted, and accepted as it is.
    await page.getByLabel('Plan shown').selectOption('changed');
    await page.locator('.title').getByText('changed by hand').waitFor();
    await page.locator('.bedyear g.batch').first().waitFor();
    await page.locator('#shown-accept').click();
    await page.locator('#hand-accept').waitFor();
    await shoot(page, 'byhand-shown');
    assert.deepEqual(await violations(page), []);
    await compare.scrollIntoViewIfNeeded();
    await shoot(page, 'byhand-compare');
    await page.locator('#hand-accept').click();
    await page.locator('#hand-back').waitFor();
    assert.ok(!(await api(url, '/api/year')).batches.some((b) => b.id === batch.id));
    assert.deepEqual(complaints, []);
  },

  async a_step_of_the_fish_and_a_new_batch_are_tried_in_arabic_too() {
    const { url } = await openFarm(makeFarm('steps'));
    const { page, complaints } = await person(PHONE);
    await goTo(page, url, 'year');
    await page.locator('#hand-fish summary').click();
    await page.locator('#hand-fish button').first().click();
    await page.locator('#hand-drop').click();
    await page.locator('#hand-answer .mark').first().waitFor();
    await page.locator('#hand-leave').click();
    await page.locator('#hand-add').click();
    await page.locator('.by-hand input[type=date]').fill('2027-05-10');
    await page.locator('#hand-answer .mark, #hand-answer .trouble').first().waitFor();
    assert.deepEqual(await violations(page), []);
    await shoot(page, 'byhand-add');
    await page.keyboard.press('Escape');
    await goTo(page, url, 'me');
    await page.locator('select').first().selectOption('ar').catch(async () => page.getByText('العربية').first().click());
    await goTo(page, url, 'year');
    await page.locator('#hand-cleans summary').click();
    await page.locator('#hand-cleans button').first().click();
    await page.locator('#hand-weeks').fill('3');
    await page.locator('#hand-answer .mark').first().waitFor();
    assert.deepEqual(await violations(page), []);
    await shoot(page, 'byhand-arabic');
    assert.deepEqual(complaints, []);
  },
};
