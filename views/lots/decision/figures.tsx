// The four figures under the verdict: what may still be in the lot, the lowest margins, where it was found, and what came before.
import { decibels, whole } from '../../figures.ts'
import { Tile, Tiles } from '../../frame.tsx'
import type { DecisionProps } from './props.ts'

export function DecisionFigures({ lot, margins, takenOut, finished }: DecisionProps) {
  return (
    <Tiles>
      <StillIn bounds={lot.bounds} />
      <Lowest margins={margins} />
      <Where takenOut={takenOut} />
      <Before lots={finished} />
    </Tiles>
  )
}

function StillIn({ bounds }: { bounds: DecisionProps['lot']['bounds'] }) {
  if (!bounds || bounds.untested === 0)
    return (
      <Tile name="Nonconforming among the untested" note="no cord is left untested">
        0
      </Tile>
    )
  const { lowerInLot, found, upperInUntested, untested } = bounds
  return (
    <Tile name="Nonconforming among the untested" note={`of ${whole(untested)} cords; each end 95 % confidence`}>
      {whole(lowerInLot - found)} to {whole(upperInUntested)}
    </Tile>
  )
}

type Parameter = 'crosstalkMargin' | 'returnLossMargin'

function Lowest({ margins: { cords } }: Pick<DecisionProps, 'margins'>) {
  const lowest = (parameter: Parameter) =>
    cords
      .flatMap((cord) => cord[parameter] ?? [])
      .reduce<string | undefined>(
        (low, each) => (low === undefined || Number(each) < Number(low) ? each : low),
        undefined,
      )
  const [crosstalk, returnLoss] = [lowest('crosstalkMargin'), lowest('returnLossMargin')]
  if (crosstalk === undefined || returnLoss === undefined) return <Tile name="Lowest margin">–</Tile>
  const [worse, other] =
    Number(crosstalk) < Number(returnLoss)
      ? [`${decibels(crosstalk)}`, `crosstalk; return loss ${decibels(returnLoss)}`]
      : [`${decibels(returnLoss)}`, `return loss; crosstalk ${decibels(crosstalk)}`]
  return (
    <Tile name="Lowest margin to the limit" note={other}>
      {worse}
    </Tile>
  )
}

/** So many cartons are named one by one. */
const named = 4

function Where({ takenOut: { cords, next } }: Pick<DecisionProps, 'takenOut'>) {
  const cartons = [...new Set(cords.map(({ carton }) => carton))].sort((one, other) => one - other)
  if (cartons.length === 0) return <Tile name="Nonconforming found in">no carton</Tile>
  const few = cartons.length <= named && next === undefined
  return (
    <Tile name={few ? 'Nonconforming found in carton' : 'Nonconforming found in'}>
      {few ? cartons.map(whole).join(', ') : `${whole(cartons.length)}${next === undefined ? '' : ' or more'} cartons`}
    </Tile>
  )
}

/** Lot by lot: lots may differ, and no common share is made of them. */
function Before({ lots }: { lots: DecisionProps['finished'] }) {
  const [last, ...earlier] = lots.toReversed()
  if (!last) return <Tile name="This supplier’s lots of it before">none</Tile>
  const others = earlier.slice(0, 2).map(({ found, tested }) => `${whole(found)} of ${whole(tested)}`)
  return (
    <Tile
      name="This supplier’s last lot of it"
      note={others.length > 0 ? `nonconforming; before it ${others.join(', ')}` : 'nonconforming'}
    >
      {whole(last.found)} of {whole(last.tested)}
    </Tile>
  )
}
