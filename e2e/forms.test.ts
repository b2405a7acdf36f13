import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type CampComputer, startCamp } from './camp.ts';
import { cramped } from './cramped.ts';
import { drillRun, openCampaign } from './first-steps.ts';
import { makeScratch, root, type Scratch } from './folders.ts';
import { type Keys, keysOn } from './keys.ts';
import { openTablet, type Tablet } from './tablet.ts';

/**
 * Everything that a campaign can write down, made on the screens with the keyboard alone, in the order of a day; at
 * each question the targets are measured on a tablet and on a phone. The steps build on each other.
 */

let camp: CampComputer;
let scratch: Scratch;
let tablet: Tablet;
let page: Page;
let keys: Keys;
/** "/c/<campaign>/B/". */
let place: string;

beforeAll(async () => {
  scratch = makeScratch('forms');
  camp = await startCamp(join(scratch.path, 'data'));
  tablet = await openTablet(join(scratch.path, 'profile'), { width: 820, height: 1180 });
  page = tablet.page;
  keys = keysOn(page);
  await openCampaign(page, camp.address, 'Ceredin Saddle, forms');
  place = page.url().replace(/drill$/, '');
  await drillRun(page, { from: '0', to: '0.92' });
});
afterAll(async () => {
  await tablet?.close();
  await camp?.kill();
  scratch?.remove();
});

async function roomy(): Promise<void> {
  for (const size of [
    { width: 390, height: 844 },
    { width: 820, height: 1180 },
  ]) {
    await page.setViewportSize(size);
    expect(await cramped(page), `${size.width} px`).toEqual([]);
  }
}

/** The question is there, its targets are big enough, and one key answers it. */
async function asked(name: RegExp, answer: () => Promise<void>): Promise<void> {
  await keys.heading(name);
  await roomy();
  await answer();
}

const enter = () => page.keyboard.press('Enter');
const digits = (text: string) => () => keys.number(text);
const press = (name: RegExp) => () => keys.press(name);

async function made(says: RegExp): Promise<void> {
  await page.locator('.answer').waitFor();
  await roomy();
  expect(await page.locator('.answer .say').first().textContent()).toMatch(says);
}

describe('At the drill', () => {
  it('more of a run: stub, counter, chips, current, rotation, load, fluid, temperature, quality, note', async () => {
    const more: readonly (readonly [RegExp, RegExp, () => Promise<void>])[] = [
      [/^Stub left/, /stub left/, digits('3')],
      [/^Counter/, /counter/, press(/^Zeroed/)],
      [/^Chips/, /chips/, digits('1,4')],
      [/^Motor current/, /motor current/, digits('4.2')],
      [/^Rotation/, /rotation/, digits('65')],
      [/^Load at/, /load at/, digits('3.1')],
      [/^Fluid/, /fluid/, digits('0.5')],
      // Cold is below zero by itself.
      [/^Core temperature/, /core temperature/, digits('24.1')],
      [/^Core quality/, /core quality/, press(/^Few breaks/)],
    ];
    await keys.press(/^More of this run/);
    for (const [button, question, answer] of more) {
      await asked(/^B-R001: what else/, press(button));
      await asked(question, answer);
    }
    await asked(/^B-R001: what else/, press(/^Note/));
    await keys.heading(/note/);
    await page.keyboard.type('Chips stick to the flights.');
    await keys.press(/^Next$/);
    await keys.heading(/^B-R001: what else/);
    const said = await page.locator('.choices').textContent();
    for (const text of ['3\u00a0cm', '1,4\u00a0kg', '\u221224.1\u00a0°C', 'Few breaks', 'flights'])
      expect(said).toContain(text);
    await keys.press(/^Done/);
    await keys.press(/^Next run/);
  });

  it('a reading that somebody gave already asks for its reason, and the old one stays', async () => {
    await keys.press(/^Correct B-R001/);
    await keys.heading(/Which reading/);
    await keys.press(/^Chips brought up/);
    await keys.heading(/New: Chips/);
    await keys.number('1.6');
    await keys.heading(/Why/);
    await enter();
    await page.getByRole('dialog').waitFor({ state: 'detached' });
  });

  it('a run that was withdrawn by mistake counts again, with its reason', async () => {
    await keys.press(/^Correct B-R001/);
    await keys.press(/^Withdraw B-R001/);
    await keys.heading(/Why/);
    await enter();
    await page.locator('.runs .withdrawn').waitFor();
    await keys.press(/^Counts again: B-R001/);
    await keys.heading(/Why/);
    await enter();
    await page.locator('.runs .withdrawn').waitFor({ state: 'detached' });
  });

  it('a drill set-up, and the next one proposes what the last one was', async () => {
    for (const [number, answer] of [
      [1, digits],
      [2, () => enter],
    ] as const) {
      await keys.press(/^Measure or set up/);
      await asked(/What is measured/, press(/^Drill set-up/));
      await asked(/name/, press(new RegExp(`^Set-up ${number}`)));
      await asked(/barrel holds/, answer('1.05'));
      await asked(/catcher/, answer('45'));
      await asked(/diameter of the core/, answer('98'));
      await asked(/cutters/, press(/^New cutters/));
      await made(/1\.05\u00a0m.*98\u00a0mm.*New cutters/);
      await keys.press(/^Back to the runs/);
    }
  });

  it('cable mark, inclination, the zero again, a new zero', async () => {
    await keys.press(/^Measure or set up/);
    await keys.press(/^Check a cable mark/);
    await asked(/distance of the mark/, digits('30'));
    await asked(/counter at the mark/, digits('30.02'));
    await made(/30\u00a0m.*30\.02\u00a0m/);
    await keys.press(/^Back to the runs/);

    await keys.press(/^Measure or set up/);
    await keys.press(/^Inclination/);
    await asked(/depth along/, digits('0.9'));
    await asked(/angle/, digits('1.2'));
    await asked(/azimuth/, press(/^Not measured/));
    await made(/1\.2°/);
    await keys.press(/^Back to the runs/);

    await keys.press(/^Measure or set up/);
    await keys.press(/^Measure the zero again/);
    await asked(/Against the first zero/, press(/^Lower/));
    await asked(/How much lower/, digits('1'));
    await made(/1\u00a0cm lower/);
    await keys.press(/^Back to the runs/);

    await keys.press(/^Measure or set up/);
    await keys.press(/^New zero/);
    await asked(/What is the zero/, press(/^Casing top/));
    await asked(/Against the first zero/, press(/^Higher/));
    await asked(/How much higher/, digits('41'));
    await made(/Casing top.*41\u00a0cm higher/);
    await keys.press(/^Back to the runs/);
    await keys.press(/^\d+ measured/);
    await expect.poll(() => page.locator('.runs .run').count()).toBe(5);
  });
});

describe('At the bench', () => {
  it('an unusual piece needs no free text: order, way up, broken again, turned, catcher scratch', async () => {
    await page.goto(`${place}log`);
    await asked(/piece 1: does its top fit/, press(/^Something is unusual/));
    for (const name of [/^Order not sure/, /^Upside down/, /^Broken again/])
      await asked(/what is unusual/, press(name));
    await asked(/what is unusual/, press(/^Turned/));
    await asked(/turned by/, digits('30'));
    await asked(/what is unusual/, press(/^Catcher scratch/));
    await asked(/catcher scratch below/, digits('120'));
    await asked(/whose catcher/, press(/^This run/));
    await asked(/what is unusual/, press(/^To the break/));
    await asked(/does its top fit/, press(/^Ground/));
    await asked(/ice lost above/, press(/^No guess/));
    await asked(/length/, digits('42.6'));
    await page.locator('.answer').waitFor();
    await keys.press(/^Correct B-P001\.1/);
    await keys.heading(/Which reading/);
    const said = await page.locator('dialog .choices').textContent();
    for (const text of ['Ground', 'Not sure', 'Upside down', '30°', '120\u00a0mm'])
      expect(said).toContain(text);
    await page.keyboard.press('Escape');
    await keys.press(/^Next piece/);
  });

  it('a sawn break has its kerf; crumbled core has a mass instead of a length; a plug of chips has no break', async () => {
    await asked(/does its top fit/, press(/^Something else/));
    await asked(/does its top fit/, press(/^Sawn/));
    await asked(/width of the saw cut/, digits('2'));
    await asked(/length/, digits('20'));
    await page.locator('.answer').waitFor();
    await keys.press(/^Next piece/);

    await keys.press(/^Something is unusual/);
    await keys.press(/^Crumbled/);
    await keys.press(/^To the break/);
    await keys.press(/^Not sure/);
    await asked(/length/, press(/^Not measured/));
    await asked(/mass/, digits('512'));
    await page.locator('.answer').waitFor();
    await keys.press(/^Next piece/);

    await keys.press(/^Something is unusual/);
    await keys.press(/^Ice not in place/);
    await asked(/what ice is it/, press(/^Plug of chips/));
    await keys.press(/^To the break/);
    await asked(/length/, digits('4'));
    await page.locator('.answer').waitFor();
    await keys.press(/^That was the last piece/);
  });

  it('masses and diameters, a melt layer, a temperature, a tape along the whole run', async () => {
    await asked(/is logged/, press(/^Masses and diameters/));
    await asked(/Tare/, digits('145'));
    // A set-up says what the cutters leave: its neighbours are buttons, digits type another value.
    for (const [piece, mass] of [
      [/P001\.1/, '2150'],
      [/P001\.2/, '1010'],
      [/P001\.4/, '160'],
    ] as const) {
      await asked(piece, digits(mass));
      await asked(/diameter at its top/, press(/^98\.1/));
      await asked(/diameter at its bottom/, digits('97.95'));
      const asks = page.getByRole('button', { name: /^It is right as it stands/ });
      await page.locator('.answer, .question-head').first().waitFor();
      await page.waitForTimeout(200);
      if (await asks.first().isVisible()) await keys.press(/^(Next piece|Done)/);
    }
    await keys.heading(/is weighed and measured/);
    await keys.press(/^Back to B-R001/);

    await asked(/is logged/, press(/^More at this run/));
    await asked(/what is done/, press(/^Feature/));
    await asked(/Which piece/, press(/^B-P001\.2/));
    await asked(/what is seen/, press(/^Melt layer/));
    await asked(/from which end/, press(/^Top/));
    await asked(/distance from that end/, digits('120'));
    await asked(/thickness/, digits('7'));
    await made(/Melt layer.*120\u00a0mm.*7\u00a0mm/);

    await keys.press(/^More at this run/);
    await keys.press(/^Temperature of a piece/);
    await asked(/Which piece/, press(/^B-P001\.1/));
    await asked(/temperature/, digits('23,5'));

    await asked(/what is done/, press(/^Tray tape/));
    await asked(/where does the core begin/, () => enter());
    await asked(/next place below$/, digits('42,6'));
    await asked(/next place below, 2/, digits('62.6'));
    await asked(/next place below, 3/, press(/^That was the end/));
    await made(/0; 42,6; 62\.6\u00a0cm/);
  });

  it('a photograph is kept on the tablet and on the camp computer, byte by byte', async () => {
    const picture = join(root, 'apps/web/public/icon-192.png');
    await keys.press(/^More at this run/);
    await keys.press(/^Photograph/);
    await asked(/What does it show/, press(/^The whole run/));
    await keys.heading(/^Photograph/);
    await roomy();
    // The chooser is the platform's own; the keyboard leads to what opens it.
    await keys.tabTo(/^Take a picture/);
    await keys.tabTo(/^Pick a picture/);
    await page.getByLabel('Pick a picture').setInputFiles(picture);
    await keys.press(/^Keep this picture/);
    await page.locator('.answer .picture img').waitFor();
    const bytes = readFileSync(picture);
    const sha256 = createHash('sha256').update(bytes).digest('hex');
    const campaign = /\/c\/([^/]+)/.exec(place)![1]!;
    const file = `${camp.address}/api/campaigns/${campaign}/attachments/${sha256}`;
    await expect.poll(async () => (await fetch(file)).status, { timeout: 20_000 }).toBe(200);
    expect(Buffer.from(await (await fetch(file)).arrayBuffer()).equals(bytes)).toBe(true);
  });

  it('a piece that turned up later goes into the run that it came from', async () => {
    await keys.press(/^More at this run/);
    await keys.press(/^A piece turned up later/);
    await asked(/Which run does it come from/, press(/^B-R001/));
    await asked(/piece 5: does its top fit/, press(/^Not sure/));
    await asked(/length/, digits('9'));
    await page.locator('.answer').waitFor();
    await keys.press(/^Correct B-P001\.5/);
    await keys.heading(/Which reading/);
    expect(await page.locator('dialog .choices').textContent()).toContain('Later');
    await page.keyboard.press('Escape');
  });

  it('a run that lies on one tape: the tape first, then a break for each piece and no length', async () => {
    await page.goto(`${place}drill`);
    await keys.heading(/depth from/);
    await drillRun(page, { to: '1.80' });
    await page.goto(`${place}log`);
    await keys.heading(/B-R002, piece 1/);
    await keys.press(/^B-R002More at this run/);
    await asked(/what is done/, press(/^Tray tape/));
    await asked(/where does the core begin/, () => enter());
    await asked(/next place below$/, digits('50,5'));
    await asked(/next place below, 2/, digits('87.0'));
    await asked(/next place below, 3/, press(/^That was the end/));
    await made(/0; 50,5; 87\.0\u00a0cm/);
    await keys.press(/^Back to B-R002/);
    for (const piece of [1, 2]) {
      await asked(new RegExp(`B-R002, piece ${piece}: does its top fit`), press(/^Fits/));
      await page.locator('.answer').waitFor();
      await keys.press(piece === 1 ? /^Next piece/ : /^That was the last/);
    }
    await keys.heading(/B-R002 is logged/);
    await expect.poll(() => page.locator('.runs .run').count()).toBe(2);
  });

  it('“this ice” shows all of it, each reading with who said it and when', async () => {
    await page.goto(`${place}core`);
    await page.getByRole('button', { name: 'B-P001.2' }).first().click();
    const side = page.locator('.this-ice');
    await side.getByText('Melt layer').first().waitFor();
    const text = await side.textContent();
    for (const one of ['Sawn', '1010\u00a0g', '98.1\u00a0mm', '97.95\u00a0mm', '145\u00a0g'])
      expect(text).toContain(one);
  });
});

describe('In the camp', () => {
  const write = async (kind: string) => {
    await page.locator(`[data-write="${kind}"]`).focus();
    await enter();
  };
  const back = press(/^Back to the camp/);

  it('weather: cold by itself, winds round a card', async () => {
    // On a phone the camp stands behind the name of the campaign.
    await page.setViewportSize({ width: 390, height: 844 });
    await keys.press(/^Core Ceredin/);
    await keys.press(/^Camp: weather/);
    await keys.heading(/In the camp/);
    await roomy();
    await write('weather');
    await asked(/air temperature/, digits('18,5'));
    await asked(/wind$/, digits('7'));
    await asked(/wind from/, press(/^NW/));
    await asked(/sky/, press(/^Drifting snow/));
    await made(/\u221218,5\u00a0°C.*7\u00a0m\/s.*315°.*Drifting snow/);
    await keys.press(/^Say more about it/);
    await asked(/what else/, press(/^New snow/));
    await asked(/new snow/, digits('4'));
    await keys.press(/^Done/);
    await back();
  });

  it('people come on duty since a while, hand over, and go off', async () => {
    await write('duty');
    await asked(/Who comes on duty/, press(/^HN/));
    await asked(/On duty as/, press(/^Driller/));
    await asked(/since when/, press(/^1 h earlier/));
    await asked(/since when/, press(/^It was then/));
    await made(/Driller/);
    await back();
    await write('handover');
    await asked(/Who takes over/, press(/^Everybody/));
    await keys.heading(/must the next shift know/);
    await page.keyboard.type('Cutters are blunt.');
    await keys.press(/^Next/);
    await made(/Cutters are blunt/);
    await back();
    await keys.press(/^Goes off: HN/);
    await page.getByText('Nobody is on duty').waitFor();
    await roomy();
  });

  it('an instrument check in the units of the instrument', async () => {
    await write('instrument check');
    await asked(/instrument$/, press(/^Balance/));
    await asked(/which one/, press(/^Leave out/));
    await asked(/held against/, digits('1000'));
    await asked(/it read/, digits('999,8'));
    await asked(/result/, press(/^Good/));
    await made(/1000 g.*999,8 g.*Good/);
    await back();
  });

  it('the contamination diary, a field blank, a stake twice under its name', async () => {
    await write('contamination');
    await asked(/soiled the ice/, press(/^Generator/));
    await asked(/When did it begin/, press(/^Now/));
    await asked(/When did it end/, press(/^Still going on/));
    await made(/began/);
    await back();
    await write('blank');
    await asked(/what it is/, press(/^Swab/));
    await asked(/name/, press(/^Blank 1/));
    await asked(/hole/, press(/^B/));
    await made(/Swab/);
    await back();
    for (const height of ['142', '139.5']) {
      await write('stake');
      await asked(/name/, press(/^Stake 1/));
      await asked(/height above the snow/, digits(height));
      await made(new RegExp(height));
      await back();
    }
  });

  it('a pit, a hand-augered top, and where they stand', async () => {
    await write('pit');
    await asked(/name/, press(/^Pit 1/));
    await asked(/depth/, digits('2.1'));
    await made(/2\.1\u00a0m/);
    await back();
    await write('hand-augered top');
    await asked(/name/, press(/^Hand-augered 1/));
    await asked(/hole/, press(/^B/));
    await asked(/depth from/, digits('0'));
    await asked(/depth to/, digits('3.4'));
    await asked(/diameter/, digits('75'));
    await made(/3\.4\u00a0m.*75\u00a0mm/);
    await back();
    await write('position');
    await asked(/What stands there/, press(/^Pit 1/));
    await asked(/latitude/, digits('96'));
    // No place has 96 degrees of latitude: said at once, and typed again.
    await page.getByText('No place has more than 90').waitFor();
    for (let key = 0; key < 2; key += 1) await page.keyboard.press('Backspace');
    await keys.number('46.12345');
    await asked(/longitude/, digits('7.5'));
    await asked(/elevation/, digits('4870'));
    await made(/46\.12345; 7\.5.*4870\u00a0m/);
    await back();
    await keys.press(/^Positions/);
    await page.locator('.runs .run', { hasText: '46.12345' }).waitFor();
  });

  it('a form that was begun is there again after a reload, whatever its kind', async () => {
    await write('weather');
    await keys.heading(/air temperature/);
    await page.keyboard.type('21');
    await enter();
    await keys.heading(/wind$/);
    await page.keyboard.type('12');
    await page.reload();
    await write('weather');
    await keys.heading(/wind$/);
    expect(await page.locator('.field input').inputValue()).toBe('12');
  });
});
