// How every page stands at both sizes, in light and dark: no violation that
// axe-core knows, nothing wider than the window, targets of 48 px, no complaint
// of the browser (its content policy included).
import { assert, DESK, goTo, makeFarm, openFarm, overflow, person, PHONE, shoot, smallTargets, violations } from '../lib.mjs';

let farm = null;
async function server() {
  farm ??= await openFarm(makeFarm('looks'));
  return farm.url;
}
const PLACES = ['round', 'beds', 'beds?bed=H1-S1', 'fish', 'water', 'water?carry=loop-1', 'water?sum=unionised-ammonia', 'tunnels', 'orders',
  'year', 'possible', 'journal', 'paper', 'setup', 'setup?table=tanks', 'setup?hour=1', 'tell', 'tell?kind=graded', 'card', 'card?pump=pump-1', 'me', 'more'];

/** Nothing is said to be fetched, and every chart is drawn. */
const quiet = (page) => page.waitForFunction(() => !document.querySelector('main .quiet[role=status]') &&
  [...document.querySelectorAll('.chart-box')].every((box) => box.firstElementChild !== null));

async function look(size, scheme, name, places = PLACES) {
  const url = await server();
  const { page, complaints } = await person(size, { colorScheme: scheme });
  const bad = [];
  for (const place of places) {
    await goTo(page, url, place);
    await quiet(page);
    for (const text of await violations(page)) bad.push(`${place}: ${text}`);
    const wide = await overflow(page);
    if (wide > 0) bad.push(`${place}: ${wide} px wider than the window`);
    for (const text of await smallTargets(page)) bad.push(`${place}: small: ${text}`);
    await shoot(page, `${name}-${place.replace(/\W+/g, '-')}`);
  }
  assert.deepEqual([...bad, ...complaints], []);
  await page.context().close();
}

export default {
  async every_page_is_sound_on_a_phone() { await look(PHONE, 'light', 'phone'); },
  async every_page_is_sound_on_a_desk() { await look(DESK, 'light', 'desk'); },
  async every_page_is_sound_in_the_dark() { await look(PHONE, 'dark', 'dark', ['round', 'beds', 'fish', 'water', 'year', 'card?pump=pump-1', 'setup?table=tanks']); },
};
