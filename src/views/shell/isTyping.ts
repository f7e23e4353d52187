/**
 * True where letters and arrows belong to the control that has the focus. A fader and a slider take their own and leave the
 * rest.
 */
export function isTyping(target: EventTarget | null): boolean {
  return (
    target instanceof HTMLElement &&
    (target.isContentEditable ||
      target.closest(
        'input:not([type="range"]), textarea, select, [role="menu"], [role="dialog"], [role="tablist"]',
      ) !== null)
  );
}
