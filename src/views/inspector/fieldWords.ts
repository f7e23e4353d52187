/** What fields are called where the plain words of their key do not say it. */
const LABELS: Readonly<Record<string, string>> = {
  wallM: 'Wall',
  baseThicknessM: 'Base',
  baseDiameterM: 'Foot diameter',
  stemDiameterM: 'Stem',
  shoulderHeightM: 'Shoulder at',
  bodyHeightM: 'Widest at',
  neckHeightM: 'Neck height',
  footRadiusM: 'Foot rounding',
  floorFilletM: 'Floor rounding',
  floorDepthM: 'Flat part',
  edgeRadiusM: 'Edge rounding',
  bevelM: 'Edge rounding',
  edgeM: 'Size',
  sizeM: 'Leaf or hole',
  middleM: 'Middle at',
  spanM: 'Span',
  reachM: 'Reach',
  bottomM: 'From',
  topM: 'Up to',
  standM: 'Lower edge at',
  insertM: 'In the neck',
  domeM: 'Dome',
  meniscusM: 'Meniscus',
  treadM: 'Tread',
  riserM: 'Riser',
  reedM: 'Reed',
  beadM: 'Bead',
  gaugeM: 'Thickness',
  spreadM: 'Spread',
  azimuthDeg: 'Turned round',
  spanDeg: 'Reaches round',
  leanDeg: 'Leans back',
  tiltDeg: 'Slats tilted',
  pitchDeg: 'Rises',
  fillFraction: 'Filled to',
  fillMl: 'Poured',
  meltMin: 'In the glass for',
  cloudyCore: 'Cloudy core',
  frost: 'Frosted',
  mist: 'Mist',
  unevenness: 'Uneven',
  brokenShare: 'Snapped off',
  missingShare: 'Missing',
  cover: 'Covered',
  seed: 'Variant',
  name: 'Called',
  index: 'Index',
  glassIndex: 'Index',
  clearIndex: 'Index',
  coatIndex: 'Coat index',
  anisotropy: 'Scatters ahead',
  scatteringPerM: 'Scattering',
  dropsPerCm2: 'Drops',
  stepStops: 'Step',
  scaleM: 'Scale',
  lengthOverHeight: 'Length to height',
  secondRgb: 'Second colour',
  reflectanceRgb: 'Colour',
  transmittanceRgb: 'Lets through',
  colourRgb: 'Colour',
  tintRgb: 'Colour',
  transmissionRgb: 'Lets through',
  transmittance: 'Lets through',
  reflectance: 'Throws back',
  plane: 'Lies',
  along: 'Grain along',
  powerW: 'Mains draw',
  pupilRatio: 'Pupil ratio',
  share: 'Share',
  cut: 'Cut pattern',
  rimCrust: 'Crust on the rim',
  wiped: 'Wiped band',
  condensation: 'Condensation',
  potFinish: 'Surface of the pot',
  frameFinish: 'Surface of the frame',
  finish: 'Surface',
  x: 'x',
  y: 'y',
};

/** What a number counts in, by the ending of its key; lengths in metres are not here, they are shown in mm or cm. */
const UNITS: readonly (readonly [ending: RegExp, unit: string])[] = [
  [/PerCm2$/, 'per cm²'],
  [/PerM$/, 'per m'],
  [/Deg$/, '°'],
  [/Mm$/, 'mm'],
  [/Ml$/, 'ml'],
  [/Min$/, 'min'],
  [/Stops$/, 'stops'],
  [/Nits$/, 'cd/m²'],
  [/Lux$/, 'lx'],
  [/Cd$/, 'cd'],
  [/Kg$/, 'kg'],
  [/Hz$/, 'Hz'],
  [/K$/, 'K'],
  [/W$/, 'W'],
  [/V$/, 'V'],
  [/A$/, 'A'],
  [/C$/, '°C'],
  [/S$/, 's'],
];
const LENGTH = /(^|[a-z])M$/;

export const isLengthKey = (key: string): boolean => LENGTH.test(key) && !key.endsWith('PerM');
export const unitOfKey = (key: string): string | undefined => UNITS.find(([ending]) => ending.test(key))?.[1];

/** 'rimDiameterM' as 'Rim diameter'. */
export function labelOfKey(key: string): string {
  const known = LABELS[key];
  if (known) return known;
  const ending = [/(Share|Fraction|Rgb)$/, LENGTH, ...UNITS.map(([pattern]) => pattern)].find((e) => e.test(key));
  const stem = ending === LENGTH ? key.slice(0, -1) : ending ? key.replace(ending, '') : key;
  return capitalise(plainWords(stem || key));
}

/** 'citrusWheel' as 'citrus wheel'. */
export const plainWords = (name: string): string => name.replace(/([a-z])([A-Z])/g, '$1 $2').toLowerCase();
export const capitalise = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);
