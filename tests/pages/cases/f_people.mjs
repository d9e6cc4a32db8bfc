// Languages, units, keyboard alone, the local network.
import { assert, goTo, makeFarm, openFarm, overflow, person, runWith, shoot, TODAY, untilTold } from '../lib.mjs';

let farm = null;
async function server() {
  farm ??= await openFarm(makeFarm('people'));
  return farm.url;
}
const ROUND = { en: 'Round', es: 'Ronda', fr: 'Tournée', pt: 'Ronda', ar: 'الجولة' };

/** What the round says at its stops and items, as it is seen. */
async function saidOnRound(page) {
  await page.locator('.item-said').first().waitFor();
  return page.locator('main h3, .item-said').allInnerTexts();
}

export default {
  async each_language_has_its_words_and_its_direction() {
    const url = await server();
    // What the farm has named itself stays as it is named.
    const own = (await (await fetch(`${url}/api/table?name=tasks`)).text()).toLowerCase();
    let english = [];
    for (const [code, title] of Object.entries(ROUND)) {
      const { page, complaints } = await person(undefined, { locale: code });
      await goTo(page, url, 'round');
      await page.getByRole('heading', { level: 1, name: title, exact: true }).waitFor();
      assert.equal(await page.evaluate(() => document.documentElement.lang), code);
      assert.equal(await page.evaluate(() => document.documentElement.dir), code === 'ar' ? 'rtl' : 'ltr');
      // The server's sentences too: as many as the English ones, none the same.
      const said = await saidOnRound(page);
      if (code === 'en') english = said;
      assert.equal(said.length, english.length);
      const same = said.filter((text, i) => text === english[i] &&
        !own.includes(text.toLowerCase()) && !/^(pH|H\d, )/.test(text)); // a quantity, a tunnel
      assert.ok(code === 'en' || same.length === 0, `${code}: ${same.join(' | ')}`);
      // Longest words and the other direction: all pages; else the first ones.
      const places = ['round', 'fish', 'water', ...(['fr', 'ar'].includes(code)
        ? ['beds', 'year', 'orders', 'journal', 'paper', 'setup', 'tell', 'card'] : [])];
      for (const place of places) {
        await goTo(page, url, place);
        assert.ok(await overflow(page) <= 0, `${code} ${place} is wider than the window`);
        if (place === 'round' || place === 'fish') await shoot(page, `${code}-${place}`);
      }
      assert.deepEqual(complaints, []);
      await page.context().close();
    }
  },

  async drafts_are_marked_and_a_language_is_kept() {
    const url = await server();
    const { page } = await person();
    await goTo(page, url, 'me');
    await page.getByRole('button', { name: /Português/ }).click();
    await page.getByRole('heading', { level: 1, name: 'Eu', exact: true }).waitFor();
    await page.getByText(/rascunho/).first().waitFor();
    await page.reload();
    await page.getByRole('heading', { level: 1, name: 'Eu', exact: true }).waitFor();
    await page.context().close();
  },

  async a_person_who_likes_pounds_sees_and_types_pounds() {
    const url = await server();
    const { page } = await person();
    await goTo(page, url, 'me');
    await page.getByRole('button', { name: 'lb and °F' }).click();
    await goTo(page, url, 'tell?kind=fed&place=A&grams=453.59237');
    const grams = page.getByRole('textbox', { name: /Weight of all/ });
    assert.equal(Number(await grams.inputValue()), 16);
    await grams.fill('8');
    await page.locator('#tell-save').click();
    const [fed] = await untilTold(url, (e) => e.kind === 'fed', 'the feed');
    assert.ok(Math.abs(fed.grams - 226.796185) < 1e-6, `${fed.grams}`);
    await page.context().close();
  },

  async a_stop_is_told_and_a_sheet_left_by_keyboard_alone() {
    const url = await server();
    const { page } = await person({ width: 1280, height: 800 });
    await goTo(page, url, 'round');
    const at = () => page.evaluate(() => ({
      text: document.activeElement?.getAttribute('aria-label') ?? document.activeElement?.textContent ?? '',
      shown: getComputedStyle(document.activeElement).outlineStyle !== 'none',
    }));
    const walk = async (like) => {
      for (let i = 0; i < 60; i++) {
        await page.keyboard.press('Tab');
        const now = await at();
        if (like.test(now.text)) {
          assert.ok(now.shown, `the focus on "${now.text}" is seen`);
          return;
        }
      }
      throw new Error(`Tab never came to ${like}`);
    };
    await walk(/Feed.*A/);
    await page.keyboard.press('Enter');
    await page.locator('dialog[open]').waitFor();
    await page.keyboard.press('Escape');
    await page.locator('dialog[open]').waitFor({ state: 'detached' });
    await walk(/^As usual: /);
    await page.keyboard.press('Enter');
    await untilTold(url, (e) => e.kind === 'as_usual', 'the stop');
    await page.context().close();
  },

  async on_the_local_network_only_the_card_opens_without_a_name() {
    const dir = makeFarm('lan');
    runWith('kingfisher on the bank\n', 'people', dir, 'add', 'name=Marta', 'role=owner', 'hand=owner');
    runWith('trout under alder\n', 'people', dir, 'add', 'name=Rui', 'role=hand', 'hand=grower');
    const lan = await openFarm(dir, ['--lan']);
    const { page } = await person(undefined, { ignoreHTTPSErrors: true });
    await page.goto(`${lan.url}/#/round`);
    await page.getByRole('heading', { level: 1, name: 'Who are you?' }).waitFor();
    await shoot(page, 'who-are-you');
    await page.getByRole('link', { name: 'Stopped?' }).click();
    await page.getByRole('link', { name: /Pump pump-1/ }).click();
    await page.getByText(/Keep out of the water\. Is the air/).waitFor();
    await page.goto(`${lan.url}/#/round`);
    await page.getByLabel('Name', { exact: true }).fill('Rui');
    await page.getByLabel('Passphrase').fill('trout under alder');
    await page.getByRole('button', { name: 'Come in' }).click();
    await page.locator('.stop-body').first().waitFor();
    assert.equal(TODAY.length, 10);
    await page.context().close();
  },
};
