// What a reader asks the advice, in the texts of its address.

/** As it stands in the address; empty where nothing was said. */
export type AdviceText = {
  good: string
  goodrisk: string
  percent: string
  own: string
  mean: string
  worth: string
  after: string
}
