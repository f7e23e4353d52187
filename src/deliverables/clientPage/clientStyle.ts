/** A dim room round the pictures; on paper, plain. Held here as text, as the page is one file. */
export const CLIENT_STYLE = `
:root { color-scheme: dark; --room: #141210; --line: rgb(240 230 214 / 14%); --ink: #e9e2d6; --quiet: #b3aba0; }
* { box-sizing: border-box; margin: 0; }
body { background: var(--room); color: var(--ink); font: 400 17px/1.55 "Spline Sans Variable", "Spline Sans", system-ui, sans-serif; }
header, main, footer { width: min(1180px, 100% - 48px); margin-inline: auto; }
header { padding: 72px 0 40px; display: grid; gap: 18px; }
.client { color: var(--quiet); }
h1 { font-size: clamp(32px, 5vw, 52px); font-weight: 500; line-height: 1.1; letter-spacing: -0.01em; }
.mood { max-width: 46em; font-size: 20px; }
dl { display: flex; flex-wrap: wrap; gap: 16px 48px; max-width: 60em; padding-top: 8px; }
dl > div { flex: 1 1 18em; border-top: 1px solid var(--line); padding-top: 10px; }
dt { color: var(--quiet); font-size: 14px; }
section { padding: 28px 0 44px; break-inside: avoid; }
img { display: block; width: 100%; height: auto; background: #000; }
figcaption { padding-top: 12px; display: flex; flex-wrap: wrap; gap: 4px 28px; align-items: baseline; }
h2 { font-size: 19px; font-weight: 500; }
h2 span { color: var(--quiet); padding-right: 0.5em; font-variant-numeric: tabular-nums; }
.note { color: var(--quiet); max-width: 44em; }
.alternatives { padding-top: 22px; }
h3 { font-size: 14px; font-weight: 400; color: var(--quiet); padding-bottom: 8px; }
.alternatives > div { display: grid; grid-template-columns: repeat(auto-fill, minmax(240px, 1fr)); gap: 20px; }
.alternatives figcaption { padding-top: 6px; font-size: 15px; }
footer { border-top: 1px solid var(--line); padding: 20px 0 56px; color: var(--quiet); font-size: 14px; }
footer p { max-width: 60em; }
@media print { :root { color-scheme: light; --room: #fff; --ink: #111; --quiet: #444; --line: #bbb; } header { padding-top: 0; } body { font-size: 11pt; } }
`;
