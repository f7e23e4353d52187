import { STOPS_BANDS, type StopsBand } from '../../camera/stopsView.ts';
import { decodeSrgb } from '../../core/color/spaces.ts';

/** The key of the stops view: a strip of its bands, darkest first, numbered in stops from middle. */
export function StopsKey() {
  return (
    <ol className="kg-stops-key" aria-label="Stops from middle">
      {STOPS_BANDS.map((band) => (
        <li
          key={band.label}
          data-clipped={band.toStops === Number.POSITIVE_INFINITY}
          style={{ backgroundColor: `rgb(${band.rgb.join(' ')})`, color: inkOn(band) }}
        >
          {shortLabel(band)}
        </li>
      ))}
    </ol>
  );
}

const shortLabel = ({ label }: StopsBand): string => {
  if (label === 'middle') return '0';
  if (label === 'clipped') return 'clips';
  return label.replace('under ', '<').replace('-', '\u2212');
};

/** Black or white, whichever stands out more: by WCAG 2.2 the two are even on a ground of relative luminance 0.179. */
const inkOn = ({ rgb: [red, green, blue] }: StopsBand): string =>
  0.2126 * decodeSrgb(red / 255) + 0.7152 * decodeSrgb(green / 255) + 0.0722 * decodeSrgb(blue / 255) > 0.179
    ? '#000'
    : '#fff';
