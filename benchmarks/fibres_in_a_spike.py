"""Lines of Markdown from a document of `lonefibre needle` on standard input."""

import json
import sys

document = json.load(sys.stdin)
muscle = document["muscle"]
background = muscle["background"]
for row in muscle["byHighPass"]:
    shares = [share["share"] for share in row["fibresPerPotential"]] + [0, 0, 0]
    cut = min(background["cuts"], key=lambda c: abs(c["highPassHz"] - row["highPassHz"]))
    print(
        f"| {document['needle']}, {row['highPassHz']:.0f} Hz | {row['spikes']} | {100 * shares[0]:.0f} %"
        f" | {100 * shares[1]:.0f} % | {100 * sum(shares[2:]):.0f} % | {row['fibreDensityRatio']:.2f}"
        f" | {cut['backgroundUv']:.1f} uV | {100 * (1 - cut['keptRatio']):.0f} % | {cut['timingErrorUs']:.2f} us |"
    )
lowest = background["lowestHighPassHz"]
print(
    f"<!-- {document['needle']}: high-pass to {background['targetUv']:.0f} uV: {lowest} Hz -->",
    file=sys.stderr,
)
