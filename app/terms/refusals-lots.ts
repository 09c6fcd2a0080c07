// Refusals about one lot: what may be done with it, its plan, its cords and their readings.

export type LotRefusals = {
  'lot/missing': { lot: number }
}
