import { STOPS_BANDS, type StopsBand } from '../../camera/stopsView.ts';

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

const inkOn = ({ rgb }: StopsBand): string => (rgb[1] > 110 ? '#14120f' : '#e9e2d6');
