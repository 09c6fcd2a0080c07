// A supplier's past: its lots over time, each with what its cords showed and how sure that is.

/** Fractions nonconforming, each limit exact for the finite lot at 97.5 %: together at least 95 %. */
export type Interval = { lower: number; upper: number }

export type LotStanding = {
  lotId: number
  item: string
  size: number
  /** when the lot was decided */
  at: Date
  outcome: 'accepted' | 'conceded' | 'screened' | 'sorted' | 'returned'
  /** counts as accepted in the supplier's history; a concession does not */
  accepted: boolean
  /** cords that count: the sample, or all of them */
  recorded: number
  found: number
  /** every cord of the lot was recorded, so that the fraction is known and no estimate */
  whole: boolean
  /** testing stopped at the rejection number: found ÷ recorded is no fair estimate, so there is none */
  fraction: number | undefined
  interval: Interval
}

export type Standing = {
  supplier: { id: number; name: string }
  /** oldest first; decided lots only */
  lots: LotStanding[]
  /** lots announced and not decided yet, withdrawn ones left out */
  open: number
  /** over all lots whose sample was finished; undefined where there is none */
  own: { found: number; recorded: number; fraction: number; interval: Interval } | undefined
}
