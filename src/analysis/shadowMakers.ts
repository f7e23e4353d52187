import { addScaled, dot, length, scale, type Vec3 } from '../core/vec3.ts';
import type { Finding, Grade } from './contracts.ts';
import { type CastEdge, castEdges } from './edges/castEdges.ts';
import { type LightPattern, patternContrast, patternOf } from './edges/pattern.ts';
import { wantedEdgeOf } from './edges/wantedEdge.ts';
import { outlineOf } from './light/casters.ts';
import { pointInFrame } from './places/inFrame.ts';
import { penumbraOf } from './shadows/penumbra.ts';
import { solveEdgeWidth } from './solvers/moveEdge.ts';
import type { FrameStudy } from './study.ts';
import { lengthWords, nameOfRecord, percentWords, stopsWords, surfaceWords } from './words.ts';

/** An edge with its pattern, if it has one, on the receiver. */
export interface JudgedEdge {
  readonly edge: CastEdge;
  readonly pattern: LightPattern | null;
  /** Penumbra across the bars of the pattern, or across the plain edge; null without end. */
  readonly penumbraM: number | null;
  /** Contrast that the pattern keeps; null for a plain edge. */
  readonly contrast: number | null;
}

/**
 * Do flags, cutters, slats and leaves throw the edge that is wanted? For each maker and receiver the penumbra s b / a of the
 * light that throws the deepest edge, and, for patterns, the contrast that is left of them.
 */
export function checkShadowMakers(
  study: FrameStudy,
  { remedies = true }: { readonly remedies?: boolean } = {},
): { findings: Finding[]; figures: Record<string, unknown> } {
  const { limits } = study.input;
  const seen = castEdges(study).filter(({ depthStops }) => depthStops >= limits.shadowSeenStops);
  const deepest = new Map<string, CastEdge>();
  for (const edge of seen) {
    const key = `${edge.makerId} ${edge.part} ${edge.receiverId}`;
    const known = deepest.get(key);
    if (!known || edge.depthStops > known.depthStops) deepest.set(key, edge);
  }
  const judged = [...deepest.values()].map((edge) => judge(study, edge));
  return {
    findings: judged.map((edge) => edgeFinding(study, edge, remedies)),
    figures: {
      edges: judged.map(({ edge, penumbraM, contrast }) => ({
        name: `${makerWords(study, edge)} on ${surfaceWords(study.input.scene, edge.receiverId)}`,
        light: edge.caster.name,
        lightToEdgeM: edge.toEdgeM,
        edgeToReceiverM: edge.beyondM,
        penumbraM,
        depthStops: edge.depthStops,
        ...(contrast === null ? {} : { contrastShare: contrast }),
      })),
    },
  };
}

/** Penumbra across the bars, and what is left of the pattern on the receiver. */
export function judge(study: FrameStudy, edge: CastEdge): JudgedEdge {
  const pattern = patternOf(study.input.scene, edge.makerId, edge.part);
  if (!pattern) return { edge, pattern, penumbraM: edge.penumbraM, contrast: null };
  const across = pattern.across ? onPlane(pattern.across, edge.normal) : edge.across;
  const outline = outlineOf(study, edge.caster, edge.edgeM);
  const penumbraM = penumbraOf(outline, edge.edgeM, { pointM: edge.atM, normal: edge.normal }, across ?? edge.across);
  const grown = (edge.toEdgeM + edge.beyondM) / edge.toEdgeM;
  const contrast = penumbraM === null ? 0 : patternContrast(pattern.gapM * grown, pattern.pitchM * grown, penumbraM);
  return { edge, pattern, penumbraM, contrast };
}

/** A direction as it lies on a plane, unit; null when it stands square to it. */
function onPlane(direction: Vec3, normal: Vec3): Vec3 | null {
  const along = dot(direction, normal);
  const flat = addScaled(direction, normal, -along);
  const size = length(flat);
  return size > 0.05 ? scale(flat, 1 / size) : null;
}

function edgeFinding(study: FrameStudy, judged: JudgedEdge, withRemedies: boolean): Finding {
  const { limits, scene, view } = study.input;
  const { edge, pattern, penumbraM, contrast } = judged;
  const isWashed = contrast !== null && contrast < limits.patternContrastCare;
  const isPlain = contrast === null || pattern === null;
  const asked = wantedEdgeOf(study.input, edge);
  const tooSoft = asked.wanted === 'crisp' && (penumbraM === null || penumbraM > asked.penumbraM);
  const tooCrisp = asked.wanted === 'soft' && penumbraM !== null && penumbraM < asked.penumbraM;
  const grade: Grade = isWashed || tooSoft || tooCrisp ? 'care' : 'ok';
  const receiver = surfaceWords(scene, edge.receiverId);
  const width = penumbraM === null ? 'an edge without end' : `an edge ${lengthWords(penumbraM)} soft`;
  const wanted = tooSoft ? ', too soft' : tooCrisp ? ', too crisp' : '';
  const patternWords = isPlain
    ? ''
    : isWashed
      ? `; its ${pattern.words} wash out, ${percentWords(contrast)} of their contrast is left`
      : `; its ${pattern.words} keep ${percentWords(contrast)} of their contrast`;
  const showsContrast = isWashed && !tooSoft && !tooCrisp;
  return {
    id: `shadowMakers:${edge.makerId}${edge.part ? `:${edge.part.replace(' ', '-')}` : ''}:${edge.receiverId}`,
    check: 'shadowMakers',
    grade,
    subject: edge.makerId,
    ...(showsContrast
      ? { value: contrast, unit: 'share of the contrast left', limit: limits.patternContrastCare }
      : {
          value: penumbraM ?? 99,
          unit: 'm of soft edge',
          limit: asked.wanted === 'any' ? null : asked.penumbraM,
        }),
    summary:
      `${makerWords(study, edge)} throws ${width} of ${edge.caster.name} on the ${receiver}, ` +
      `${stopsWords(edge.depthStops)} deep${wanted}${patternWords}.`,
    where: {
      pointM: edge.atM,
      ...pointInFrame(view, edge.atM),
      raysM: [[edge.lightM, edge.edgeM, edge.atM]],
    },
    remedies: grade === 'care' && withRemedies ? solveEdgeWidth(study, judged) : [],
  };
}

function makerWords({ input }: FrameStudy, { makerId, part }: CastEdge): string {
  const name = nameOfRecord(input.scene, makerId);
  return part === '' ? name : `The ${part === 'barn door' ? 'barn doors' : part} of ${name}`;
}
