// The four figures under the advisor's answer: cords, what slips through, what is rejected for nothing, bench time and money.
import type { Comparison } from '../../app/advisor/compare.ts'
import type { Question } from '../../app/advisor/question.ts'
import { expected, frequency, hoursAtMost, money, whole } from '../figures.ts'
import { Tile, Tiles } from '../frame.tsx'

type Props = { question: Question; comparison: Comparison; currency: string }

export function FiguresOfAdvice({ question, comparison: { advised }, currency }: Props) {
  const { good, effort, confidence } = question
  const { sampleSize, acceptance, producersRisk } = advised
  const { cordsAnHour, testCents } = effort
  return (
    <Tiles>
      <Tile
        name="Cords to test, at most"
        note={'average' in advised && `${expected(advised.average)} on average in such a lot`}
      >
        {whole(sampleSize)}
      </Tile>
      <Tile name="Lots with too many that slip through">
        {frequency(acceptance.yes, acceptance.no, 1 - confidence)}
      </Tile>
      <Tile
        name={`Lots with only ${whole(good.nonconforming)} that are rejected`}
        note={!good.demanded && producersRisk.yes > 0 && 'to limit them, open “Good lots”'}
      >
        {frequency(producersRisk.yes, producersRisk.no, good.demanded ? good.risk : 1)}
      </Tile>
      <Tile
        name="Bench time, at most"
        note={`${whole(cordsAnHour)} cords an hour; ${money(sampleSize * testCents, currency)} in tests`}
      >
        {hoursAtMost(sampleSize / cordsAnHour)}
      </Tile>
    </Tiles>
  )
}
