import { strToU8 } from 'fflate';
import type { FrameScene } from '../scene/setModel.ts';
import { sortFields } from './stringify.ts';

/**
 * FNV-1a, 64 bits, of the UTF-8 bytes of a text, as 16 hexadecimal digits.
 * Fowler, Noll, Vo, Eastlake, "The FNV Non-Cryptographic Hash Algorithm", IETF draft (prime 2^40 + 2^8 + 0xb3).
 */
export function hashText(text: string): string {
  let high = 0xcbf29ce4;
  let low = 0x84222325;
  for (const byte of strToU8(text)) {
    low = (low ^ byte) >>> 0;
    // (high, low) * (2^40 + 0x1b3) mod 2^64. low * 0x1b3 stays under 2^41, so doubles hold it exactly.
    const lowProduct = low * 0x1b3;
    const carry = Math.floor(lowProduct / 0x1_0000_0000);
    high = (Math.imul(high, 0x1b3) + carry + (low << 8)) >>> 0;
    low = lowProduct >>> 0;
  }
  return high.toString(16).padStart(8, '0') + low.toString(16).padStart(8, '0');
}

/**
 * Stands for all of a frame that the traced light depends on: as long as it stays the same, a finished film can be kept
 * and only weighed anew. Left out are what acts as a gain on a film layer (switch, dimmer, nets, gels, colour), what
 * the camera does after the light has arrived (ISO, shutter, white balance; the stop stays in, for depth of field),
 * names, mains draw, and where the meter is held. Order of records counts: it is the order of the film layers.
 */
export function traceKey(scene: FrameScene): string {
  const { iso: _iso, shutterS: _shutterS, whiteBalanceK: _whiteBalanceK, ...camera } = scene.camera;
  const lightPath = {
    pieces: scene.pieces.map((piece) => {
      const { name: _name, ...rest } = piece;
      if (rest.kind !== 'glass' || !rest.drink) return rest;
      const { name: _drinkName, libraryId: _libraryId, layers, ...drink } = rest.drink;
      return { ...rest, drink, layers: layers?.map(({ name: _layer, libraryId: _from, ...layer }) => layer) };
    }),
    fixtures: scene.fixtures.map(
      ({
        name: _name,
        on: _on,
        dimStops: _dimStops,
        cctK: _cctK,
        duv: _duv,
        powerW: _powerW,
        nets: _nets,
        gels: _gels,
        ...rest
      }) => rest,
    ),
    grip: scene.grip.map(({ name: _name, ...rest }) => rest),
    camera,
    heroId: scene.subject.pieceId,
    turntable: scene.turntable,
    turntableAngleDeg: scene.turntableAngleDeg,
  };
  return hashText(JSON.stringify(sortFields(lightPath)));
}
