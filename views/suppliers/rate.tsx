// How a share with its interval is said of suppliers side by side.
import { percent, percentAtLeast, percentAtMost } from '../figures.ts'

/** A share with its interval below it. */
export function ShareBetween({ share, lower, upper }: { share: number; lower: number; upper: number }) {
  return (
    <span class="between">
      {percent(share)}
      <small>
        {percentAtLeast(lower)} to {percentAtMost(upper)}
      </small>
    </span>
  )
}
