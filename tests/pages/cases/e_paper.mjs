// Paper: a day's sheet keyed back by keyboard alone; what prints.
import { api, assert, goTo, journal, makeFarm, openFarm, person, shoot, TODAY, untilTold } from '../lib.mjs';

let farm = null;
async function server() {
  farm ??= await openFarm(makeFarm('paper'));
  return farm.url;
}

export default {
  async a_day_of_paper_is_keyed_in_with_enter_alone_and_told_as_that_day() {
    const url = await server();
    const { page, complaints } = await person({ width: 1280, height: 800 });
    await goTo(page, url, 'paper');
    await page.locator('.key-line').first().waitFor();
    const round = await api(url, `/api/round?day=${TODAY}`);
    const boxes = page.locator('.sheet-keys input');
    const count = await boxes.count();
    assert.ok(count > 30, `${count} boxes`);
    const start = Date.now();
    await boxes.first().focus();
    let keyed = 0;
    for (let i = 0; i < count; i++) {
      const box = await page.evaluate(() => ({
        kind: document.activeElement.type, is: document.activeElement.inputMode,
        hint: document.activeElement.placeholder,
      }));
      if (box.kind === 'checkbox') {
        await page.keyboard.press('Space');
        keyed++;
      } else if (box.is === 'decimal' && box.hint !== '') {
        await page.keyboard.type(/[\d.]+/.exec(box.hint)[0]);
        keyed++;
      }
      await page.keyboard.press('Enter');
    }
    const took = (Date.now() - start) / 1000;
    assert.ok(keyed > 20, `${keyed} boxes filled`);
    await shoot(page, 'paper-keyed');
    await page.keyboard.press('Enter');
    await page.getByText(/entries told\./).waitFor();
    const last = round.stops.filter((s) => !s.hands).pop().id;
    await untilTold(url, (e) => e.kind === 'as_usual' && e.stop === last, 'the last stop');
    const told = await journal(url);
    assert.ok(told.every((e) => e.happened_on === TODAY && e.happened_at === undefined), 'the hour is not known');
    for (const feed of round.stops.flatMap((s) => s.items).filter((i) => i.kind === 'feed' && i.value.amount > 0)) {
      assert.equal(told.filter((e) => e.kind === 'fed' && e.place === feed.place).length, 1, feed.id);
    }
    console.log(`      ${count} boxes, ${keyed} filled in ${took.toFixed(1)} s by a keyboard that does not think`);
    assert.deepEqual(complaints, []);
    await page.context().close();
  },

  async sheets_print_in_walking_order() {
    const url = await server();
    const { page } = await person();
    for (const sheet of ['round', 'sow', 'pick', 'feed', 'water']) {
      const answer = await page.goto(`${url}/print/${sheet}?day=${TODAY}`);
      assert.equal(answer.status(), 200, sheet);
      assert.ok((await page.locator('body').innerText()).length > 80, sheet);
      assert.ok((await page.pdf({ format: 'A4' })).length > 3000, sheet);
    }
    await page.context().close();
  },

  async a_page_prints_without_its_frame() {
    const url = await server();
    const { page } = await person();
    await goTo(page, url, 'journal');
    await page.emulateMedia({ media: 'print' });
    assert.equal(await page.locator('.nav').isVisible(), false);
    assert.equal(await page.locator('h1').isVisible(), true);
    await page.context().close();
  },
};
