import { createMergePatch } from '../../document/mergePatch.ts';
import { type Finish, finishSchema } from '../../materials/finish.ts';
import { type Picture, pictureSchema } from '../../materials/picture.ts';
import { defaultLabel } from '../../scene/glassDefaults.ts';
import { buildGlassBody } from '../../scene/glassware/buildGlassBody.ts';
import { piecesOf } from '../../scene/glassware/glassBody.ts';
import { radiiAtHeightM } from '../../scene/profile/index.ts';
import type { Piece } from '../../scene/records.ts';

/** A picture file as plain pixels. */
export type Pixels = Pick<Picture, 'widthPx' | 'heightPx' | 'rgb'>;

const PAPER: readonly [number, number, number] = [0.85, 0.85, 0.83];
/** A backdrop's picture is no sharper than this on the set: finer would cost without being seen. */
const START_M = 0.2;

/** The merge patch that lays a picture on a piece: round a glass as its label, over the whole of a flat thing. Null where none fits. */
export function pictureOnPiece(piece: Piece, pixels: Pixels): Readonly<Record<string, unknown>> | null {
  if (piece.kind === 'glass') return labelPatch(piece, pixels);
  if (!('finish' in piece)) return null;
  const place = placeOn(piece, pixels.widthPx / pixels.heightPx);
  return {
    finish: createMergePatch(piece.finish, printed(piece.finish, pictureSchema.parse({ ...pixels, ...place }))),
  };
}

const printed = (finish: Finish, picture: Picture): Finish =>
  finishSchema.parse({
    type: 'matte',
    reflectanceRgb: 'reflectanceRgb' in finish ? finish.reflectanceRgb : PAPER,
    picture,
  });

function labelPatch(
  piece: Extract<Piece, { kind: 'glass' }>,
  pixels: Pixels,
): Readonly<Record<string, unknown>> | null {
  const label = piece.label ?? defaultLabel();
  const body = buildGlassBody(piece.id, piece.profile);
  if (!body.ok) return null;
  const middleM = label.bottomM + label.heightM / 2;
  const radiusM = Math.max(0.001, ...radiiAtHeightM(piecesOf(body.value.outside), middleM));
  const picture = pictureSchema.parse({
    ...pixels,
    lies: 'round',
    radiusM,
    azimuthDeg: label.azimuthDeg,
    centreM: [0, middleM],
    ...fitted(pixels.widthPx / pixels.heightPx, (label.spanDeg * Math.PI * radiusM) / 180, label.heightM),
  });
  return { label: { ...label, finish: printed(label.finish, picture) } };
}

interface Place {
  readonly lies: Picture['lies'];
  readonly centreM: [number, number];
  readonly widthM: number;
  readonly heightM: number;
}

/** Over the face that the camera sees: the front of what stands, the top of what lies. */
function placeOn(piece: Exclude<Piece, { kind: 'glass' | 'garnish' }>, aspect: number): Place {
  const widthM = 'widthM' in piece ? piece.widthM : START_M;
  if ('depthM' in piece && (!('heightM' in piece) || piece.heightM < piece.depthM))
    return { lies: 'level', centreM: [0, 0], ...covering(aspect, widthM, piece.depthM) };
  const heightM = 'heightM' in piece ? piece.heightM : widthM / aspect;
  return { lies: 'upright', centreM: [0, heightM / 2], ...covering(aspect, widthM, heightM) };
}

/** The whole picture inside a field. */
const fitted = (aspect: number, widthM: number, heightM: number): Pick<Place, 'widthM' | 'heightM'> =>
  widthM / heightM > aspect ? { widthM: heightM * aspect, heightM } : { widthM, heightM: widthM / aspect };

/** The whole field inside a picture. */
const covering = (aspect: number, widthM: number, heightM: number): Pick<Place, 'widthM' | 'heightM'> =>
  widthM / heightM > aspect ? { widthM, heightM: widthM / aspect } : { widthM: heightM * aspect, heightM };
