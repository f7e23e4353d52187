import type { Setup } from '../../../src/document/setup.ts';
import { validateSetup } from '../../../src/document/validate.ts';
import { studioSetup } from './studioSetup.ts';

/** Texts that would run or break out somewhere if they were not escaped. */
export const HOSTILE_TEXTS = [
  '<script>alert(1)</script>',
  '"><img src=x onerror=alert(1)>',
  "' onmouseover='alert(1)",
  '</style><script>alert(1)</script>',
  '</title><svg onload=alert(1)>',
  '<!-- --><iframe srcdoc="<script>alert(1)</script>">',
  '&lt;script&gt;alert(1)&lt;/script&gt;',
  'javascript:alert(1)',
  '=HYPERLINK("http://example.invalid","x")',
  '@SUM(1+1)*cmd|calc!A0',
  'comma, "quote"',
  ']]>&amp;&#x3c;b&#x3e;',
  '`\u0024{alert(1)}`',
  'caf\u00e9 \u010d\u0142 \u8336 \ud83c\udf79 \u202etxt',
] as const;

/** The studio setup with a hostile text wherever a person may write one. */
export function hostileSetup(): Setup {
  const setup = structuredClone(studioSetup());
  let next = 0;
  const text = (): string => HOSTILE_TEXTS[next++ % HOSTILE_TEXTS.length];
  for (const record of [...setup.pieces, ...setup.fixtures, ...setup.grip, ...setup.frames]) record.name = text();
  const made = validateSetup({
    ...setup,
    title: text(),
    brief: { client: text(), mood: HOSTILE_TEXTS.join('\n'), deliverables: text(), notes: text() },
  });
  if (!made.ok) throw new Error(made.error[0]?.message);
  return made.value;
}
