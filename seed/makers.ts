// What the example's makers are like: processes of the stated model, all invented.
import type { Process } from './model.ts'

export const steady: Process = {
  crosstalk: { mean: 6.3, spread: 1.5 },
  returnLoss: { mean: 5.4, spoolSpread: 0.3, endSpread: 0.9 },
  wireMapFault: 0.0003,
  visualFault: 0.0005,
}

/** The steady process with its margins moved by so many dB. */
export const shifted = (crosstalk: number, returnLoss = 0): Process => ({
  ...steady,
  crosstalk: { ...steady.crosstalk, mean: steady.crosstalk.mean + crosstalk },
  returnLoss: { ...steady.returnLoss, mean: steady.returnLoss.mean + returnLoss },
})

/** Two workshops behind one name: every third carton comes from the weaker one. */
export const mixing = (carton: number): Process => (carton % 3 === 0 ? shifted(-2.9) : steady)

/** The plugs are sound; what varies is the cable of a whole spool. */
export const spools: Process = {
  ...steady,
  returnLoss: { mean: 2.6, spoolSpread: 2.4, endSpread: 0.3 },
}

/** Sold as Category 6A, built like the category below: nearly all fall short. */
export const oversold = shifted(-6.3, -1.2)

/** Far above both limits, lot after lot: the worse end's crosstalk margin and the return loss margin are about 4 spreads above 0. */
export const ample: Process = {
  crosstalk: { mean: 5.4, spread: 1.4 },
  returnLoss: { mean: 4.9, spoolSpread: 1.2, endSpread: 0.1 },
  wireMapFault: 0.0003,
  visualFault: 0.0005,
}
