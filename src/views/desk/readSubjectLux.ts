/**
 * Incident light at the meter point per fixture, lux, as the fixtures are set, from the figures of the exposure check.
 * Figures are open data, so anything that is not a number is passed over.
 */
export function readSubjectLux(figures: Readonly<Record<string, unknown>>): ReadonlyMap<string, number> {
  const byFixture = new Map<string, number>();
  const list = figures.subjectIlluminanceByFixtureLux;
  if (typeof list !== 'object' || list === null) return byFixture;
  for (const [fixtureId, lux] of Object.entries(list)) if (typeof lux === 'number') byFixture.set(fixtureId, lux);
  return byFixture;
}
