// Where in the lot a cord lies.

/** Carton and place in it, both from 1. */
export type CordPlace = { carton: number; place: number }

/**
 * Place of a cord whose number is counted through the cartons in order, each but the last being full.
 *
 * @example placeOf(317, 40) // carton 8, place 37
 */
export function placeOf(position: number, cordsInCarton: number): CordPlace {
  return {
    carton: Math.floor((position - 1) / cordsInCarton) + 1,
    place: ((position - 1) % cordsInCarton) + 1,
  }
}
