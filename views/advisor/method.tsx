// How the advisor's numbers are worked out, folded.
import { Topic } from '../frame.tsx'

export function HowWorkedOut() {
  return (
    <Topic title="How these numbers are worked out">
      <p>
        Chances are exact (hypergeometric) for a random draw from a lot of this size. Testing stops once the lot is
        rejected: where none is allowed, at the first nonconforming cord. Nonconforming cords found are removed, and
        nothing of a rejected lot is put into use. Of the plans shown, the recommended one is the single sample with the
        fewest cords that keeps what you ask; two samples and groups may test fewer on average.
      </p>
      <p>
        Thirty cords an hour and 1.50 a test are common practice, without a source: enter yours under “Bench time and
        costs”.
      </p>
    </Topic>
  )
}
