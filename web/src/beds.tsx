import type { PageProps } from './app';
export function Beds(_: PageProps) { return <p>stub</p>; }
