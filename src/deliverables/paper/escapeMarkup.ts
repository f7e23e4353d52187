/** Characters that XML 1.0 can't hold at all, not even escaped (section 2.2), and lone surrogates. */
const NOT_XML =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: these are the very characters to take out
  /[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]|[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g;

const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
  '`': '&#96;',
};

/**
 * Text made safe as the content or a quoted attribute value of HTML and XML: whatever is in it is shown, and nothing of
 * it is read as markup. Characters that XML can't hold become U+FFFD.
 */
export const escapeMarkup = (words: string): string =>
  words.replace(NOT_XML, '\ufffd').replace(/[&<>"'`]/g, (sign) => ENTITIES[sign] ?? sign);
