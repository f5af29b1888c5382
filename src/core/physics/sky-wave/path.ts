/** A sky-wave path at one hour: control points, modes and MUFs of ITU-R P.533-14, everything that does not depend on the frequency. */

import { sin } from '../../numeric/elementary.ts';
import { type Crossing, crossings } from './absorption.ts';
import { type Conditions, sunHour } from './conditions.ts';
import { type ESounding, eLayer } from './e-layer.ts';
import {
  alongPath,
  DEG,
  E_HEIGHT_KM,
  elevation_deg,
  incidence_deg,
  longestHop_km,
  type Place,
  slantPath_km,
} from './geometry.ts';
import { geomagneticLatitude_deg, localHour } from './high-latitude.ts';
import { type F2Sounding, soundingNearest } from './ionosphere.ts';
import { magneticField } from './magnetic-field.ts';
import { ROP } from './method-tables.ts';
import { dmax_km, eMuf_MHz, type F2Layer, f2Layer, f2Muf_MHz } from './muf.ts';

/** Longest path of the method, km. */
export const LONGEST_PATH_KM = 4000;
const TWO_POINTS_FROM_KM = 2000;
const MOST_F2_HOPS = 6;
const MOST_E_HOPS = 3;

/** Where the F2 layer's soundings come from. */
export type Sounder = (place: Place, conditions: Conditions) => F2Sounding;

/** The maps of the theatre, at its edge for a place outside. */
export const theatreSounder: Sounder = ({ lat, lng }, { month, hour_UT, R12, reference }) => {
  // The reference program mirrors its weights inside each 1.5 degree cell west of Greenwich.
  const mapLng = reference && lng < 0 ? -1.5 * (2 * Math.floor(-lng / 1.5) + 1) - lng : lng;
  return soundingNearest(lat, mapLng, month, hour_UT, R12);
};

/** A control point: the layers and the field over it. */
export interface ControlPoint extends ESounding {
  readonly place: Place;
  /** |f_H sin dip| at 100 km, MHz. */
  readonly fL_MHz: number;
  readonly layer: F2Layer;
}

/** One mode of n hops by a layer, ready for any frequency. */
export interface Mode {
  /** Hops and layer, as 1F2. */
  readonly name: string;
  readonly layer: 'E' | 'F2';
  readonly hops: number;
  readonly hop_km: number;
  readonly muf_MHz: number;
  readonly elevation_deg: number;
  /** Incidence at 110 km. */
  readonly incidence_deg: number;
  readonly slant_km: number;
  readonly crossings: readonly Crossing[];
  /** Control points over which f_L and L_h are averaged. */
  readonly over: readonly ControlPoint[];
}

/** A path of at most 4000 km at one hour. */
export interface SkyPath {
  readonly conditions: Conditions;
  readonly D_km: number;
  readonly middle: ControlPoint;
  /** Points whose mirror heights are averaged for screening: the middle, or with the half-hop points beyond dmax. */
  readonly mirrors: readonly ControlPoint[];
  /** foE that screens F2 modes. */
  readonly screeningFoE_MHz: number;
  /** E modes by order, then F2 modes by order. */
  readonly modes: readonly Mode[];
  readonly basicMuf_MHz: number;
  readonly operationalMuf_MHz: number;
  readonly localHour: number;
}

function controlPoint(place: Place, conditions: Conditions, sounder: Sounder): ControlPoint {
  const e = eLayer(place, conditions);
  const low = magneticField(place, 100);
  const { foF2_MHz, M3000F2 } = sounder(place, conditions);
  return {
    ...e,
    place,
    fL_MHz: Math.abs(low.gyro_MHz * sin(low.dip_deg / DEG)),
    layer: f2Layer(foF2_MHz, M3000F2, e.foE_MHz, magneticField(place, 300).gyro_MHz),
  };
}

/** The first order whose hop a mirror at h_km can span; the last order when none can. */
function lowestOrder(D_km: number, h_km: number, most: number): number {
  for (let n = 1; n < most; n++) if (longestHop_km(h_km) > D_km / n) return n;
  return most;
}

/** P.533's seasons of the operational MUF: winter November to February, summer May to August. */
function ropSeason(month: number): number {
  if (month >= 11 || month <= 2) return 0;
  return month >= 5 && month <= 8 ? 2 : 1;
}

interface Points {
  readonly middle: ControlPoint;
  /** 1000 km from either end, from 2000 km of path up. */
  readonly ends: readonly ControlPoint[];
  /** Half a hop of the lowest F2 order from either end, beyond dmax. */
  readonly halves: readonly ControlPoint[];
}

/** Basic MUF of n F2 hops: by the middle, or beyond dmax by the weaker end, higher orders in proportion. */
function f2ModeMuf(points: Points, D_km: number, n: number, lowest: number): number {
  const { middle, halves } = points;
  const dmax = dmax_km(middle.layer);
  if (halves.length === 0) return f2Muf_MHz(middle.layer, D_km / n, dmax);
  const base = Math.min(...halves.map(({ layer }) => f2Muf_MHz(layer, D_km / lowest, dmax)));
  if (n === lowest) return base;
  const own = ({ layer }: ControlPoint, order: number) => f2Muf_MHz(layer, D_km / order, layer.dmRaw);
  return base * Math.min(...halves.map((point) => own(point, n) / own(point, lowest)));
}

/** Mirror height for the field: the middle's, or beyond dmax that of the weakest layer (the reference program overlooks the point 1000 km from the sender). */
function fieldHeight_km({ middle, ends, halves }: Points, reference: boolean): number {
  if (halves.length === 0) return middle.layer.hr;
  const asked = [halves[0]!, middle, halves[1]!, ...(reference ? ends.slice(1) : ends)];
  return asked.reduce((weakest, one) => (one.layer.foF2 < weakest.layer.foF2 ? one : weakest)).layer.hr;
}

function modeOf(
  kind: { layer: 'E' | 'F2'; hops: number; muf_MHz: number; h_km: number; over: ControlPoint[] },
  ends: { from: Place; to: Place; D_km: number },
  conditions: Conditions,
): Mode {
  const { layer, hops, muf_MHz, h_km, over } = kind;
  const { from, to, D_km } = ends;
  const el = elevation_deg(D_km / hops, h_km);
  return {
    name: `${hops}${layer}`,
    layer,
    hops,
    hop_km: D_km / hops,
    muf_MHz,
    elevation_deg: el,
    incidence_deg: incidence_deg(el, E_HEIGHT_KM),
    slant_km: slantPath_km(D_km, hops, el),
    crossings: crossings(from, to, D_km, hops, el, conditions),
    over,
  };
}

function controlPoints(from: Place, to: Place, D_km: number, conditions: Conditions, sounder: Sounder): Points {
  const at = (u: number) => controlPoint(alongPath(from, to, D_km, u), conditions, sounder);
  const middle = at(0.5);
  const ends = D_km >= TWO_POINTS_FROM_KM ? [at(1000 / D_km), at(1 - 1000 / D_km)] : [];
  const lowest = lowestOrder(D_km, middle.layer.hr, MOST_F2_HOPS);
  const isBeyond = D_km > dmax_km(middle.layer);
  return { middle, ends, halves: isBeyond ? [at(1 / (2 * lowest)), at(1 - 1 / (2 * lowest))] : [] };
}

/** foE of the E modes' MUF (the weaker end from 2000 km up) and of the screening (the stronger end beyond 2000 km). */
function endsFoE({ middle, ends }: Points, D_km: number): { muf: number; screening: number } {
  const two = ends.map(({ foE_MHz }) => foE_MHz);
  return {
    muf: two.length > 0 ? Math.min(...two) : middle.foE_MHz,
    screening: D_km > TWO_POINTS_FROM_KM ? Math.max(...two) : middle.foE_MHz,
  };
}

function isDay({ sun }: ControlPoint, hour: number): boolean {
  return sun.rise_h < hour && hour < sun.set_h;
}

/** Prepares a path of D_km (above 0, at most 4000) between two places. */
export function skyPath(from: Place, to: Place, D_km: number, conditions: Conditions, sounder: Sounder): SkyPath {
  const points = controlPoints(from, to, D_km, conditions, sounder);
  const { middle, ends, halves } = points;
  const foE = endsFoE(points, D_km);
  const way = { from, to, D_km };
  const near = D_km > TWO_POINTS_FROM_KM ? [middle, ...ends] : [middle];
  const lowestE = lowestOrder(D_km, E_HEIGHT_KM, MOST_E_HOPS);
  const lowestF2 = lowestOrder(D_km, middle.layer.hr, MOST_F2_HOPS);
  const e: Mode[] = [];
  for (let n = lowestE; n <= MOST_E_HOPS; n++) {
    const muf_MHz = eMuf_MHz(foE.muf, D_km / n);
    e.push(modeOf({ layer: 'E', hops: n, muf_MHz, h_km: E_HEIGHT_KM, over: near }, way, conditions));
  }
  const f2: Mode[] = [];
  const h_km = fieldHeight_km(points, conditions.reference);
  for (let n = lowestF2; n <= MOST_F2_HOPS; n++) {
    const muf_MHz = f2ModeMuf(points, D_km, n, lowestF2);
    f2.push(modeOf({ layer: 'F2', hops: n, muf_MHz, h_km, over: [...near, ...halves] }, way, conditions));
  }
  const sun_h = sunHour(conditions);
  const rop = ROP[ropSeason(conditions.month)]![isDay(middle, sun_h) ? 0 : 1];
  return {
    conditions,
    D_km,
    middle,
    mirrors: halves.length > 0 ? [halves[0]!, middle, halves[1]!] : [middle],
    screeningFoE_MHz: foE.screening,
    modes: [...e, ...f2],
    basicMuf_MHz: Math.max(e[0]!.muf_MHz, f2[0]!.muf_MHz),
    operationalMuf_MHz: Math.max(...e.map((m) => m.muf_MHz), ...f2.map((m) => m.muf_MHz * rop)),
    localHour: localHour(sun_h, middle.place.lng),
  };
}

/** Geomagnetic latitude of a path's middle, degrees without sign. */
export const pathGeomagneticLatitude_deg = (path: SkyPath): number => geomagneticLatitude_deg(path.middle.place);
