import { judgeShard } from './families.ts';

judgeShard(0);
