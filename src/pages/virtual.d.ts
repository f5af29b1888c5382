declare module 'virtual:scenarios' {
  const drills: readonly { id: string; title: string; about: string; minutes: { novice: number; expert: number } }[];
  export default drills;
}
