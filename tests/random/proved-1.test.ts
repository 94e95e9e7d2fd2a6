import { proveShard } from './proved.ts';

proveShard(0);
