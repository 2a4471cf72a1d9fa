// US proof, twice the strength by volume at 60 °F (27 CFR 30.11), and strength by volume at 20 °C. Which
// of two temperatures a strength is told at is physics: the differences below are the house's own (OIML
// R 22), of every fifth proof; a cubic through four of them is within 0.0003 %vol between, and one way
// undoes the other.

const EACH = 5;

/** %vol at 20 °C over half the proof, at 0, 5, 10 … 200 proof. */
const OVER_HALF = [
  0, 0.00998, 0.0198, 0.02926, 0.0382, 0.04641, 0.0537, 0.05994, 0.065, 0.06883, 0.07145, 0.07292,
  0.07338, 0.07298, 0.07191, 0.07037, 0.06853, 0.06657, 0.06459, 0.0627, 0.06093, 0.05927, 0.05768,
  0.05611, 0.05448, 0.05269, 0.05069, 0.04842, 0.04584, 0.04293, 0.0397, 0.03616, 0.03235, 0.02832,
  0.02414, 0.01991, 0.01567, 0.01143, 0.00705, 0.00256, 0,
];

function overHalf(proof: number): number {
  const place = Math.min(Math.max(proof / EACH, 0), OVER_HALF.length - 1);
  const from = Math.min(Math.max(Math.floor(place) - 1, 0), OVER_HALF.length - 4);
  const [a, b, c, d] = OVER_HALF.slice(from, from + 4) as [number, number, number, number];
  const t = place - from;
  return (
    (-a * (t - 1) * (t - 2) * (t - 3)) / 6 +
    (b * t * (t - 2) * (t - 3)) / 2 -
    (c * t * (t - 1) * (t - 3)) / 2 +
    (d * t * (t - 1) * (t - 2)) / 6
  );
}

/** %vol at 20 °C of a strength in proof, 0 to 200. */
export const percentOfProof = (proof: number): number => proof / 2 + overHalf(proof);

/** The proof of a strength in %vol at 20 °C, 0 to 100. */
export function proofOfPercent(percent: number): number {
  let proof = 2 * percent;
  // Each round leaves less than a hundredth of the fault: the differences change so slowly.
  for (let round = 0; round < 6; ++round) proof = 2 * (percent - overHalf(proof));
  return proof;
}
