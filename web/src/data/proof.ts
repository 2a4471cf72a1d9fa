// US proof, twice the strength by volume at 60 °F (27 CFR 30.11), as strength by volume at 20 °C. Which
// of two temperatures a strength is told at is physics: the differences below are the house's own (OIML
// R 22), of each tenth proof; between them a straight line is within 0.003 %vol.

/** %vol at 20 °C over half the proof, at 0, 10, 20 … 200 proof. */
const OVER_HALF = [
  0, 0.0198, 0.0382, 0.0537, 0.065, 0.0714, 0.0734, 0.0719, 0.0685, 0.0646, 0.0609, 0.0577, 0.0545,
  0.0507, 0.0458, 0.0397, 0.0323, 0.0241, 0.0157, 0.007, 0,
];

/** %vol at 20 °C of a strength in proof, 0 to 200. */
export function percentOfProof(proof: number): number {
  const place = Math.min(Math.max(proof / 10, 0), OVER_HALF.length - 1);
  const i = Math.min(Math.floor(place), OVER_HALF.length - 2);
  return proof / 2 + OVER_HALF[i]! + (place - i) * (OVER_HALF[i + 1]! - OVER_HALF[i]!);
}
