/** The angle brought into [0, 360). */
export function within360(angle_deg: number): number {
  const rest = angle_deg % 360;
  return rest < 0 ? rest + 360 : rest;
}

/** The angle brought into [-180, 180). */
export function within180(angle_deg: number): number {
  return within360(angle_deg + 180) - 180;
}
