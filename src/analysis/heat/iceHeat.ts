/** Latent heat of ice at 0 C, J/kg. From memory of the CRC Handbook. */
export const ICE_LATENT_J_PER_KG = 333_550;
/** Density of ice at 0 C, kg/m3. From memory of the CRC Handbook. */
export const ICE_DENSITY_KG_PER_M3 = 916.7;
/** Specific heat of water, J/(kg K). From memory of IAPWS. */
export const WATER_J_PER_KG_K = 4186;
/** Specific heat, J/(kg K), and density, kg/m3, of soda-lime glass; typical, from memory. */
export const GLASS_J_PER_KG_K = 840;
export const GLASS_DENSITY_KG_PER_M3 = 2500;

/** Heat that melts ice at 0 C, J. */
export const meltHeatJ = (massKg: number): number => massKg * ICE_LATENT_J_PER_KG;

/** Ice that melts to take up a heat, kg. */
export const meltedKg = (heatJ: number): number => heatJ / ICE_LATENT_J_PER_KG;

/** Heat to take from a drink to bring it to 0 C, J. */
export const chillHeatJ = (drinkKg: number, drinkC: number): number => Math.max(0, drinkKg * WATER_J_PER_KG_K * drinkC);

/**
 * Temperature at which ice at 0 C and a drink settle, C, nothing lost: (m c T - m_ice L) / (c (m + m_ice)), or 0 while some ice
 * is left.
 */
export const settledC = (drinkKg: number, drinkC: number, iceKg: number): number =>
  Math.max(0, (drinkKg * WATER_J_PER_KG_K * drinkC - meltHeatJ(iceKg)) / (WATER_J_PER_KG_K * (drinkKg + iceKg)));

/** Time in which a heat flow melts a mass, s. */
export const meltTimeS = (massKg: number, heatW: number): number =>
  heatW > 0 ? meltHeatJ(massKg) / heatW : Number.POSITIVE_INFINITY;

/**
 * Lumped melting of a cube of edge a in something warmer by dT that gives h W/(m2 K): rho L (V/A) / (h dT) with the faces held
 * at their first area, and three times that with faces that recede to nothing. Both in s. After Incropera and DeWitt,
 * from memory; real cubes lie between.
 */
export function cubeMeltTimesS(
  edgeM: number,
  heatTransferWPerM2K: number,
  warmerK: number,
): { readonly fixedAreaS: number; readonly recedingFacesS: number } {
  const flux = heatTransferWPerM2K * warmerK;
  const perM = (ICE_DENSITY_KG_PER_M3 * ICE_LATENT_J_PER_KG) / flux;
  return { fixedAreaS: (perM * edgeM) / 6, recedingFacesS: (perM * edgeM) / 2 };
}

/** Radiant heat that comes with light, W/m2: illuminance over the luminous efficacy of the radiation. */
export const irradianceWPerM2 = (illuminanceLux: number, efficacyLmPerW: number): number =>
  illuminanceLux / efficacyLmPerW;
