// Two pictures side by side: the same clean sample of sections of one spool, and of cords put together one by one.
import type { Remainders } from '../../app/history/replay/remainders.ts'
import { HundredLots } from '../charts/hundred-lots.tsx'
import { frequency, percent as percentage, whole } from '../figures.ts'

type Props = { remainders: Remainders; percent: string }

export function SpoolOrCords({ remainders, percent }: Props) {
  const { lotSize, sampleSize, fraction, alike, oneByOne } = remainders
  const share = `${percentage(fraction.value)} of them do not conform on average (${fraction.own ? "the supplier's own share" : 'an assumed share: this supplier has none of its own yet'})`
  return (
    <section>
      <h2>Why a percentage suits a spool and not a cord</h2>
      <p>
        Take {whole(lotSize)}, test {percent} % of them, {whole(sampleSize)}, and find every one in order; {share}. How
        often are all the {whole(lotSize - sampleSize)} others in order too?
      </p>
      <div class="side">
        <Made heading="Sections of one spool" how="They stand or fall together" chance={alike} id="alike" />
        <Made heading="Cords, plug by plug" how="They fail one by one" chance={oneByOne} id="one-by-one" />
      </div>
      <p>
        A filled square is a lot, of a hundred, whose untested rest is clean. If cords fail one by one at a steady rate,
        the tested ones tell about the rate, not about any particular cord that was not tested.
      </p>
    </section>
  )
}

const titles = { alike: 'Sections of one spool', 'one-by-one': 'Cords that fail one by one' }

type MadeProps = { heading: string; how: string; chance: number; id: keyof typeof titles }

function Made({ heading, how, chance, id }: MadeProps) {
  return (
    <figure class="chart">
      <h3>{heading}</h3>
      <p>
        {how}: <b>{frequency(chance)}</b> such lots.
      </p>
      <HundredLots
        id={id}
        title={`${titles[id]}: lots whose rest is clean`}
        description={`${frequency(chance)} lots with a clean sample are clean throughout`}
        chance={chance}
      />
    </figure>
  )
}
