import type { Swatch } from '../../core/color/palette.ts';

/** Colours side by side, each as wide as its part of the picture. */
export function PaletteStrip({ label, palette }: { readonly label: string; readonly palette: readonly Swatch[] }) {
  const words = palette.map(({ hex, share }) => `${hex}, ${Math.round(share * 100)} %`).join('; ');
  return (
    <div className="kg-palette" role="img" aria-label={`${label}: ${words}`} data-testid="palette" data-of={label}>
      {palette.map(({ hex, lab, share }) => (
        <span
          key={hex}
          style={{ flexGrow: Math.max(0.06, share), background: hex }}
          title={`${hex}, ${Math.round(share * 100)} % of the picture, L* ${lab[0].toFixed(0)}, a* ${lab[1].toFixed(0)}, b* ${lab[2].toFixed(0)}`}
        />
      ))}
    </div>
  );
}
