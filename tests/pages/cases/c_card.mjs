// The emergency card: without a name, without signal, on paper.
import { assert, goTo, makeFarm, openFarm, person, shoot } from '../lib.mjs';

let farm = null;
async function server() {
  farm ??= await openFarm(makeFarm('card'));
  return farm.url;
}
const FIRST = /Keep out of the water\. Is the air still running\? Leave it on\./;

/** The questions whose answers this browser holds. */
const kept = (page) => page.evaluate(async () => {
  const db = await new Promise((resolve, reject) => {
    const request = indexedDB.open('leat');
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
  const keys = await new Promise((resolve) => {
    const request = db.transaction('answers').objectStore('answers').getAllKeys();
    request.onsuccess = () => resolve(request.result);
  });
  db.close();
  return keys;
});

export default {
  async the_card_is_one_tap_from_every_page_and_begins_with_the_plug() {
    const url = await server();
    const { page, complaints } = await person();
    for (const place of ['round', 'year', 'setup']) {
      await goTo(page, url, place);
      await page.getByRole('link', { name: 'Stopped?' }).click();
      await page.getByRole('link', { name: /Pump pump-1/ }).waitFor();
    }
    await page.getByRole('link', { name: /Pump pump-1/ }).click();
    const first = page.locator('.step').first();
    assert.match(await first.innerText(), FIRST);
    await page.getByText('no countdown').waitFor();
    assert.equal(await page.locator('a[href^="tel:+351"]').count(), 5);
    await shoot(page, 'card');
    assert.deepEqual(complaints, []);
    await page.context().close();
  },

  async the_card_opens_without_signal_though_it_was_never_opened_before() {
    const url = await server();
    const { page, context } = await person();
    await goTo(page, url, 'round');
    await page.evaluate(() => navigator.serviceWorker.ready);
    // Cards are fetched in the background once the first screen stands.
    // A wait on a promise would be over at once: asked again and again instead.
    let keys = [];
    for (let i = 0; i < 300 && !keys.includes('en /api/card?power=all'); i++) {
      await page.waitForTimeout(50);
      keys = await kept(page);
    }
    assert.ok(keys.includes('en /api/card?power=all'), 'the cards were never kept');
    await context.setOffline(true);
    await page.close();
    const again = await context.newPage();
    await again.goto(`${url}/#/card?pump=pump-2`);
    await again.getByText(FIRST).waitFor();
    await again.getByText(/No signal\. This is how it stood/).first().waitFor();
    await context.close();
  },

  async the_card_prints_on_its_own_page() {
    const url = await server();
    const { page } = await person();
    await page.goto(`${url}/print/card?pump=pump-1`);
    assert.match(await page.locator('body').innerText(), FIRST);
    const pdf = await page.pdf({ format: 'A4' });
    assert.ok(pdf.length > 5000);
    await page.context().close();
  },
};
