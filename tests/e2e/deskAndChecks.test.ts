import { describe, expect, it } from 'vitest';
import { TABLET, useBrowser } from './helpers/appPage.ts';
import { readFindings, readSetup, readTrace, waitForChecks, waitForSamples } from './helpers/workbench.ts';

const { open } = useBrowser();

describe('the light desk', () => {
  it('keeps two looks and blends them in light, groups lights, and lays a gel, all without a new trace', async () => {
    const { page, problems, shoot, close } = await open(TABLET, '?demo=iced-tea-on-paper-sweep');
    await waitForChecks(page);
    await waitForSamples(page, 1);
    const before = await readSetup(page);
    const { tracesStarted } = await readTrace(page);
    const fader = page.getByTestId('desk-strip').first().getByTestId('fader');

    await page.getByRole('button', { name: 'Keep look A' }).click();
    await fader.focus();
    await page.keyboard.press('PageDown');
    await page.keyboard.press('PageDown');
    await page.getByRole('button', { name: 'Keep look B' }).click();
    const [a, b] = [before.fixtures[0].dimStops, (await readSetup(page)).fixtures[0].dimStops];
    await page.getByTestId('blend').fill('0.5');
    // Midway in light, not in stops.
    expect((await readSetup(page)).fixtures[0].dimStops).toBeCloseTo(Math.log2((2 ** a + 2 ** b) / 2), 3);
    await page.getByRole('button', { name: 'Look A', exact: true }).click();
    expect((await readSetup(page)).fixtures[0].dimStops).toBe(a);

    await page.getByRole('button', { name: 'Group', exact: true }).click();
    for (const { name } of before.fixtures.slice(1, 3))
      await page.getByRole('button', { name: `${name} in the group` }).click();
    await page.getByRole('button', { name: 'Make a group' }).click();
    const group = page.getByTestId('group-strip');
    await group.getByTestId('fader').focus();
    await page.keyboard.press('Shift+ArrowDown');
    const moved = (await readSetup(page)).fixtures.map(({ dimStops }) => dimStops);
    const by = before.fixtures.map(({ dimStops }, i) => moved[i] - dimStops);
    expect(by[0]).toBe(0);
    expect(by[1]).toBeLessThan(-0.6);
    expect(by[2]).toBeCloseTo(by[1], 3);

    await page.getByTestId('gel').first().click();
    await page.getByRole('menuitem', { name: 'half CTO' }).click();
    expect((await readSetup(page)).fixtures[0].gels).toEqual([{ kind: 'cto', strength: 'half' }]);
    await shoot('desk-group');
    await page.getByRole('button', { name: 'Fold', exact: true }).click();
    expect(await page.getByTestId('desk-strip').count()).toBe(before.fixtures.length - 2);

    expect((await readTrace(page)).tracesStarted).toBe(tracesStarted);
    while (await page.getByRole('button', { name: 'Undo' }).isEnabled()) await page.keyboard.press('Control+z');
    expect(await readSetup(page)).toEqual(before);
    expect(problems).toEqual([]);
    await close();
    // Without a graphics card and beside other work, tracing and drawing share a core or two.
  }, 480_000);
});

describe('the checks', () => {
  it('take a limit of the frame and a mark with its reason, show both, and take them back', async () => {
    const { page, problems, shoot, close } = await open(TABLET, '?demo=tonic-on-gloss-black-wrong');
    await waitForChecks(page);
    await page.getByRole('tab', { name: 'Checks' }).click();
    const bad = (await readFindings(page)).find(({ check, grade }) => check === 'reflections' && grade === 'stop');
    if (!bad?.limit) throw new Error('the wrong demo shows its panel in the gloss');
    const line = page.locator(`[data-testid="finding"][data-finding="${bad.id}"]`);
    await line.getByRole('button').first().click();
    expect(await line.textContent()).toContain('ray over');

    // Wanted, and why: fine as it is from then on.
    await line.getByRole('button', { name: 'It is wanted' }).click();
    await page.getByTestId('mark-reason').fill('the client asked for it');
    await page.keyboard.press('Enter');
    expect((await readSetup(page)).frames[0].marks).toEqual([
      { findingId: bad.id, wanted: true, reason: 'the client asked for it' },
    ]);
    const gradeOf = async () => (await readFindings(page)).find(({ id }) => id === bad.id)?.grade;
    await expect.poll(gradeOf).toBe('ok');
    await expect.poll(() => line.textContent()).toContain('the client asked for it');
    await shoot('checks-marked');
    await line.getByRole('button', { name: 'Take back' }).click();
    expect((await readSetup(page)).frames[0].marks).toBeUndefined();
    await expect.poll(gradeOf).toBe('stop');

    // A limit past the figure: no longer a fault.
    await page.getByRole('button', { name: 'All limits' }).click();
    const field = page.getByTestId('limit-reflectionStopStops');
    await field.fill(String(Math.ceil(bad.value) + 5));
    await field.press('Enter');
    await expect.poll(gradeOf).toBe('care');
    await shoot('checks-limits');
    await page.locator('[data-check="reflections"]').getByRole('button', { name: 'As usual' }).click();
    expect((await readSetup(page)).frames[0].limits.reflectionStopStops).toBeUndefined();
    await expect.poll(gradeOf).toBe('stop');
    expect(problems).toEqual([]);
    await close();
    // Without a graphics card and beside other work, tracing and drawing share a core or two.
  }, 480_000);
});
