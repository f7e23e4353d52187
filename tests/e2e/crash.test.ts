import { describe, expect, it } from 'vitest';
import { DESKTOP, useBrowser } from './helpers/appPage.ts';
import { readSetup } from './helpers/workbench.ts';

const { open } = useBrowser({ trace: false });

/** A second may be lost; on a busy machine the write itself may take another. */
const SURELY_KEPT_MS = 3000;

describe('a page that is killed in the middle of a drag', () => {
  it('comes back with what stood a moment before, without a question and without an error', async () => {
    const first = await open(DESKTOP, '?demo=tonic-on-gloss-black');
    const panel = first.page.locator('svg [data-record-id="fixture:panel"]').first();
    const box = await panel.boundingBox();
    if (!box) throw new Error('the panel is not drawn');
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    const before = await readSetup(first.page);
    await first.page.mouse.move(x, y);
    await first.page.mouse.down();
    await first.page.mouse.move(x + 30, y + 12, { steps: 3 });
    // Still held: nothing is finished that could be kept as a step.
    await first.page.waitForTimeout(SURELY_KEPT_MS);
    const lastSecond = [await readSetup(first.page)];
    expect(lastSecond[0]).not.toEqual(before);
    for (let step = 1; step <= 5; step++) {
      await first.page.mouse.move(x + 30 + 6 * step, y + 12);
      lastSecond.push(await readSetup(first.page));
    }
    const gone = first.page.waitForEvent('crash');
    const session = await first.page.context().newCDPSession(first.page);
    // The page is gone before it can answer.
    session.send('Page.crash').catch(() => undefined);
    await gone;

    const again = await first.openAnother();
    await again.page.waitForFunction(() => window.__keyglass !== undefined);
    expect(lastSecond).toContainEqual(await readSetup(again.page));
    // The light can be taken up again where it was.
    const held = again.page.locator('svg [data-record-id="fixture:panel"]').first();
    await held.focus();
    await again.page.keyboard.press('Enter');
    await again.page.keyboard.press('ArrowRight');
    expect(lastSecond).not.toContainEqual(await readSetup(again.page));
    expect(await again.page.getByRole('dialog').count()).toBe(0);
    expect(await again.page.getByTestId('notice').count()).toBe(0);
    expect(again.problems).toEqual([]);
    await first.close();
  });
});
