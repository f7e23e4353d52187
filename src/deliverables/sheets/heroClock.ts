import type { CheckInput } from '../../analysis/contracts.ts';
import { createFrameStudy } from '../../analysis/frameStudy.ts';
import { checkHeroTime } from '../../analysis/heroTime.ts';
import type { FrameSet } from '../frameSet.ts';
import { leadOf } from './kitList.ts';
import type { Cell, Table } from './table.ts';

/** How long the hero drink lasts, by the check of the same name: an estimate and its range. */
export interface HeroTime {
  readonly shortestS: number;
  readonly likelyS: number;
  readonly longestS: number;
  readonly iceG: number;
}

const S_PER_MIN = 60;

/** Null where the subject of the frame has no ice. */
export function heroTimeOf(input: CheckInput): HeroTime | null {
  const { findings, figures } = checkHeroTime(createFrameStudy(input));
  if (findings.length === 0) return null;
  const figure = (name: string): number => {
    const value = figures[name];
    return typeof value === 'number' ? value : 0;
  };
  return {
    shortestS: figure('shortestMin') * S_PER_MIN,
    likelyS: figure('likelyMin') * S_PER_MIN,
    longestS: figure('longestMin') * S_PER_MIN,
    iceG: figure('iceG'),
  };
}

/** The clock that runs once the ice is in: for each frame how long it gives, and room for the times of the day. */
export function heroClock(frames: readonly FrameSet[], times: readonly (HeroTime | null)[]): Table | null {
  const rows = frames.flatMap(({ frame, scene }, i): Cell[][] => {
    const time = times[i];
    if (!time) return [];
    const hero = scene.pieces.find(({ id }) => id === scene.subject.pieceId);
    return [
      [
        i + 1,
        frame.name,
        hero?.name ?? '',
        time.iceG,
        time.shortestS / S_PER_MIN,
        time.likelyS / S_PER_MIN,
        time.longestS / S_PER_MIN,
        null,
        null,
        null,
      ],
    ];
  });
  if (rows.length === 0) return null;
  return {
    id: 'hero-clock',
    title: 'Hero clock',
    lead: leadOf(frames),
    columns: [
      { title: 'No.', share: 5 },
      { title: 'Frame', share: 18 },
      { title: 'Hero', share: 16 },
      { title: 'Ice', unit: 'g', share: 7 },
      { title: 'At least', unit: 'min', digits: 1, share: 9 },
      { title: 'Likely', unit: 'min', digits: 1, share: 9 },
      { title: 'At most', unit: 'min', digits: 1, share: 9 },
      { title: 'Ice in at', share: 14, blank: true },
      { title: 'Fresh until', share: 14, blank: true },
      { title: 'Taken at', share: 14, blank: true },
    ],
    rows,
    notes: [
      'From the ice in the glass until a third of it is gone, by the heat of the room and of the lights: an estimate. Write down when the ice goes in and add the minutes; swap the drink at the latest then.',
    ],
  };
}
