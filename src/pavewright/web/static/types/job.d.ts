// made by tools/make_types.py from the types of the program; do not edit
// The job inside a plan: every field is there.

export interface Accepted {
  by: string;
  at: string;
  means: AcceptedMeans;
  quoted_on: string;
  revision: number;
  stored_revision: number | null;
  paper_sha256: string | null;
  currency: string;
  tax_name: string;
  tax_rounding: TaxRounding;
  sums: TaxedSum[];
  options: AcceptedOption[];
  to_settle: SumToSettle[];
  stages: StagePayment[];
  retention_percent: number | null;
  retention_freed_percent: number;
  days_to_pay: number | null;
}

export type AcceptedMeans = "link" | "paper" | "message";

export interface AcceptedOption {
  name: string;
  sums: TaxedSum[];
}

export interface Agreement {
  place: AgreementPlace | null;
  on: string | null;
}

export type AgreementPlace = "home" | "distance" | "premises";

export interface AirBrick {
  name: string;
  along_mm: number;
  underside_level_mm: number | string | AssumedLevel | null;
}

export type AnswerKind = "value" | "none" | "could_not_see";

export interface Area {
  name: string;
  outline: OutlineCorner[];
  holes: OutlineCorner[][];
  use: Use;
  base_rule: BaseRule;
  base_design: BaseDesign | null;
  permeable: PermeableBase | null;
  before: GroundCover;
  accessible: boolean;
  position: Position;
  fall: FallWish;
  laying: Laying;
  zones: Zone[];
  edges: EdgeSide[];
  note: string;
}

export interface Arrangements {
  skip_on_road: boolean | null;
  parking_paid: boolean | null;
  water_on_site: boolean | null;
  toilet_on_site: boolean | null;
  drop_space_m2: number | null;
  drop_point: string | null;
  clear_height_mm: number | null;
  lorry_limit_tonnes: number | null;
  crane_reach_mm: number | null;
  order_prices: boolean;
  new_frames: boolean | null;
}

export interface AsLaid {
  date: string;
  read_by: string;
  instrument: string;
  reading_sd_mm: number;
  readings: AsLaidReading[];
  marks: FixedMark[];
  gaps: StraightedgeGap[];
  lips: LipRead[];
  joints: JointRead[];
  later_visits: LaterVisit[];
}

export interface AsLaidReading {
  x_mm: number;
  y_mm: number;
  level_mm: number | null;
  area: string;
  label: string;
}

export interface Assembly {
  key: string;
  name: string | null;
  item: string | null;
  material: MaterialKind | null;
  per: Driver | null;
  amount: number | null;
  low: number | null;
  high: number | null;
  unit: PackUnit | null;
  lost_percent: number | null;
  when: Condition | null;
  off: boolean | null;
  source: string;
}

export interface Assumed {
  by: string;
  why: string;
}

export interface AssumedLevel {
  assumed_mm: number;
  by: string;
  why: string;
}

export interface BagsUsed {
  area: string;
  opened: number;
  left_part: number | null;
  up_to_piece: number;
  date: string | null;
}

export interface BaseDesign {
  by: string | null;
  on: string | null;
  concrete_mm: number | null;
  sub_base_mm: number | null;
  capping_mm: number;
  note: string;
}

export type BaseRule = 
    | "own"
    | "blocks"
    | "blocks_frost"
    | "slabs"
    | "shared_surface"
    | "road_1984"
    | "road_1984_capped"
    | "million_axles"
    | "concrete_drive"
    | "designed"
    | "permeable";

export interface BayDone {
  area: string;
  stage: WorkStage;
  x_mm: number;
  y_mm: number;
}

export interface BayTemperature {
  area: string;
  temperature_c: number;
}

export type Bedding = 
    | "mortar_on_concrete"
    | "mortar_on_sub_base"
    | "sand_on_sub_base";

export interface Benchmark {
  point: string;
  level_mm: number;
  assumed: boolean;
  note: string;
}

export type Beyond = 
    | "own_paving"
    | "own_ground"
    | "neighbour"
    | "highway"
    | "not_known";

export interface Bill {
  number: number;
  kind: BillKind;
  on: string;
  due_on: string | null;
  stage: number | null;
  variation: number | null;
  credits: number | null;
  words: string;
  sums: TaxedSum[];
  held_minor: number;
  freed_minor: number;
}

export type BillKind = "stage" | "variation" | "final" | "retention" | "credit";

export interface Border {
  kind: BorderKind;
  courses: number;
  unit: string | null;
  corner: BorderCorner;
  tapered: boolean;
  stretch_joints: boolean;
}

export type BorderCorner = "mitred" | "butted";

export type BorderKind = "soldier" | "stretcher";

export interface Boundary {
  name: string;
  start: string;
  end: string;
  neighbour: Neighbour;
  top_level_mm: number | null;
  assumed: Assumed | null;
  note: string;
}

export interface BreakLine {
  points: string[];
  note: string;
}

export type BuriedKind = "drain" | "service" | "soakaway" | "edge" | "other";

export interface BuriedReading {
  name: string;
  kind: BuriedKind;
  depth_mm: number | null;
  measured_on: string | null;
  note: string;
}

export interface Calendar {
  start: string | null;
  day_starts_min: number;
  weekdays: number[];
  days_off: string[];
  weather_percent: number;
  exact_order: boolean;
  half_days: boolean;
  weather: MonthWeather[];
  bay_temperatures: BayTemperature[];
}

export interface CatalogueItem {
  supplier: string;
  supplier_code: string;
  supplier_kind: SupplierKind | null;
  priced_on: string | null;
  min_packs: number | null;
  carriage_minor: number | null;
  lead_days: number | null;
  key: string;
  name: string;
  pack_amount: number;
  pack_unit: PackUnit;
  pack_price_minor: number | null;
  kg_per_unit: number | null;
}

export type ChangeKind = 
    | "cover"
    | "gully"
    | "tie_in"
    | "door"
    | "door_reach"
    | "join"
    | "min_fall"
    | "steepest"
    | "valley_fall";

export interface ChangePrice {
  key: ChangeKind;
  once_minor: number;
  each_minor: number;
}

export interface Channel {
  name: string;
  start: string;
  end: string;
  width_mm: number;
  inside_mm: number | null;
  depth_mm: number | null;
  bottom_one_in: number | null;
  invert_level_mm: number | null;
  state: GullyState | null;
  outfall: string | null;
  takes_paving: boolean | null;
  runs: boolean | null;
  pipe_mm: number | null;
  assumed: Assumed | null;
}

export type Condition = 
    | "always"
    | "skip_on_road"
    | "parking_paid"
    | "no_water"
    | "no_toilet"
    | "new_frames"
    | "infiltration_not_tested";

export type CornerName = "A" | "B" | "C" | "D";

export interface CornerRead {
  corner: CornerName;
  level_mm: number;
}

export type CornerWay = "wedge" | "string" | "staff" | "percent";

export interface Cover {
  name: string;
  point: string;
  length_mm: number;
  width_mm: number;
  bearing_deg: number;
  level_mm: number | string | AssumedLevel | null;
  fixed: boolean;
  tolerance_mm: number;
  corner_levels_mm: number[] | null;
}

export interface CoverKeys {
  cover: string;
  count: number | null;
  kept_at: string;
}

export interface Crew {
  people: number | null;
  hours_per_day: number;
  pace: number;
  machine_dig: boolean;
  own_mixer: boolean;
  gangs: Gang[];
  outputs: OwnOutput[];
}

export interface CurveOffset {
  along_mm: number;
  offset_mm: number;
}

export interface DayWeather {
  sky: SkyKind | null;
  lowest_c: number | null;
  highest_c: number | null;
  rain_depth_mm: number | null;
}

export interface DeliveredBatch {
  unit: string | null;
  product: string;
  batch: string;
  area: string | null;
  delivered_on: string | null;
  ticket: string;
}

export interface DigFound {
  name: string;
  kind: FoundKind;
  area: string;
  found_on: string;
  found_by: string;
  outline: FoundCorner[];
  area_m2: number | null;
  depth_mm: number;
  length_mm: number | null;
  new_pipe: boolean;
  note: string;
}

export interface Disposal {
  supplier: string;
  supplier_code: string;
  supplier_kind: SupplierKind | null;
  priced_on: string | null;
  min_packs: number | null;
  carriage_minor: number | null;
  lead_days: number | null;
  kind: DisposalKind;
  volume_m3: number;
  payload_tonnes: number | null;
  load_price_minor: number | null;
}

export type DisposalKind = "skip" | "grab" | "tipper";

export interface DoneTask {
  task: string;
  on: string;
  since: string | null;
  done_percent: number;
}

export interface DrainMark {
  name: string;
  drain: string;
  date: string;
  above_mm: number;
  place: string;
}

export interface DrainTest {
  kind: DrainTestKind;
  drop_mm: number | null;
  minutes: number | null;
  start_gauge_mm: number | null;
  lost_litre: number | null;
  length_mm: number | null;
  pipe_mm: number | null;
  seen_running: boolean | null;
}

export type DrainTestKind = "air" | "water" | "seen_running";

export interface DrawnArea {
  name: string;
  corners: DrawnCorner[];
  layers: DrawnLayer[];
}

export interface DrawnCorner {
  x_mm: number;
  y_mm: number;
  finished_mm: number | null;
}

export interface DrawnLayer {
  name: string;
  material: string;
  thickness_mm: number;
}

export type Driver = 
    | "job"
    | "paved_m2"
    | "mortar_m2"
    | "sand_m2"
    | "low_absorption_m2"
    | "unit"
    | "mortar_unit"
    | "cut_m"
    | "perimeter_m"
    | "movement_joint_m"
    | "riser_m"
    | "cover"
    | "cover_frame_m"
    | "drain_run"
    | "drain_m"
    | "gully"
    | "channel"
    | "soakaway"
    | "load"
    | "water_litre"
    | "work_day"
    | "week"
    | "person_day"
    | "fuel_litre";

export type EdgeRestraint = 
    | "wall"
    | "haunch"
    | "edging"
    | "kerb"
    | "retaining"
    | "engineered"
    | "existing"
    | "none";

export interface EdgeSide {
  corner: string;
  to: string | null;
  restraint: EdgeRestraint;
  freedom_mm: number;
}

export interface FallWish {
  away_from: string | null;
  bearing_deg: number | null;
  one_in: number | null;
  cross_one_in: number | null;
  cross_to: Hand;
  folding: Folding;
  gully: string | null;
  steepest_one_in: number | null;
  valley_one_in: number | null;
  level_at: string | null;
  level_mm: number | null;
}

export interface FixedMark {
  name: string;
  level_mm: number | null;
}

export type Folding = 
    | "one_plane"
    | "to_house"
    | "valley"
    | "crossed_valley"
    | "to_gully"
    | "ridge"
    | "mitre"
    | "stepped"
    | "cheapest";

export interface FoundCorner {
  x_mm: number;
  y_mm: number;
}

export type FoundKind = "deeper" | "soft_spot" | "concrete" | "drain";

export interface Gang {
  name: string;
  people: Skill[];
}

export type GapMeans = "wedge" | "eye";

export interface GivenPoint {
  name: string;
  x_mm: number;
  y_mm: number;
  level_mm: number | null;
  place_sd_mm: number | null;
  by_photo: string | null;
  assumed: Assumed | null;
  note: string;
}

export interface Ground {
  soil: Soil;
  assumed: Assumed | null;
  cbr_percent: number | null;
  topsoil_mm: number | null;
  strata: Stratum[];
  side_room_mm: number;
  side_slope: number;
  reuse_as_fill: boolean;
  stays_m3: number;
  water_table: WaterTable;
  note: string;
}

export type GroundCover = "garden" | "path" | "paving";

export interface GroundGap {
  points: string[];
  note: string;
}

export interface Gully {
  name: string;
  point: string;
  size_mm: number;
  grating_level_mm: number | null;
  fixed: boolean;
  invert_level_mm: number | null;
  outfall: string | null;
  takes_paving: boolean | null;
  runs: boolean | null;
  pipe_mm: number | null;
  state: GullyState | null;
  assumed: Assumed | null;
}

export type GullyState = "existing" | "new";

export type Hand = "left" | "right";

export interface HandedOver {
  completed_on: string | null;
  handed_on: string | null;
  handed_by: string;
  handed_to: string;
  warranty_until: string | null;
  batches: DeliveredBatch[];
  buried: BuriedReading[];
  cover_keys: CoverKeys[];
  spares: SpareUnits[];
  notes: string;
}

export type HeightMeans = 
    | "string"
    | "water_level"
    | "spirit_level"
    | "laser"
    | "photo";

export interface HeightOver {
  point: string;
  over: string;
  higher_mm: number;
  by: HeightMeans;
  sd_mm: number | null;
  note: string;
}

export interface HoldCheck {
  name: string;
  kind: HoldCheckKind;
  area: string | null;
  layer: HoldLayer | null;
  drain: string | null;
  date: string;
  read_by: string;
  instrument: string;
  sd_mm: number;
  readings: HoldReading[];
  run_mm: number | null;
  test: DrainTest | null;
  note: string;
}

export type HoldCheckKind = "formation" | "layer" | "drain" | "first_row" | "bed";

export type HoldKind = "formation" | "drains" | "layer" | "snag";

export type HoldLayer = "capping" | "sub_base" | "base";

export interface HoldPoint {
  key: HoldKind;
  wait_h: number;
  by: string;
}

export interface HoldReading {
  label: string;
  x_mm: number;
  y_mm: number;
  level_mm: number | null;
  off_mm: number | null;
  note: string;
}

export interface HoseMark {
  name: string;
  x_mm: number;
  y_mm: number;
  depth_mm: number;
  across_mm: number | null;
}

export interface HoseTest {
  name: string;
  area: string;
  date: string;
  seen_by: string;
  after_min: number;
  all_wet: boolean;
  all_seen: boolean;
  marks: HoseMark[];
  note: string;
}

export interface Identity {
  job: string;
  title: string;
  client: string;
  address: string;
  contractor: string;
  date: string;
  revision: number;
  locality: string;
  edition: string | null;
  currency: string;
  region: string | null;
  measure: Measure | null;
  invented: boolean;
}

export interface InstrumentSetUp {
  name: string;
  point: string;
  backsight_mm: number;
  read_on: string | null;
}

export interface Job {
  format: "pavewright.job";
  version: 3;
  identity: Identity;
  measurements: Measurements;
  site: Site;
  areas: Area[];
  steps: StepFlight[];
  units: PavingUnit[];
  rates: Rates;
  crew: Crew;
  calendar: Calendar;
  terms: Terms;
  agreement: Agreement;
  standing: Standing;
  holds: HoldPoint[];
  pins: PinnedTask[];
  done: DoneTask[];
  arrangements: Arrangements;
  mixes: Mixes;
  tolerance: ToleranceRegime;
  held_to: string | null;
  as_laid: AsLaid | null;
  photo_planes: PhotoPlane[];
  phone_slopes: PhoneSlope[];
  hold_checks: HoldCheck[];
  dig_found: DigFound[];
  units_read: UnitRead[];
  bags_used: BagsUsed[];
  site_days: SiteDay[];
  hose_tests: HoseTest[];
  drain_marks: DrainMark[];
  snags: Snag[];
  handed_over: HandedOver | null;
  quoted: Quoted | null;
  accepted: Accepted | null;
  variations: Variation[];
  settled: Settled[];
  bills: Bill[];
  received: Received[];
  tools: ToolsAtHand;
  set_ups: InstrumentSetUp[];
  strings_set: StringAsSet[];
}

export type JobState = 
    | "enquiry"
    | "visit"
    | "quoted"
    | "accepted"
    | "planned"
    | "on_site"
    | "snagging"
    | "paid"
    | "watched"
    | "lost"
    | "declined";

export type JointFill = "flush" | "recessed" | "open";

export interface JointRead {
  name: string;
  area: string;
  width_mm: number | null;
  recess_mm: number | null;
  sd_mm: number | null;
  x_mm: number | null;
  y_mm: number | null;
}

export interface LabourRate {
  skill: Skill;
  minor_per_hour: number;
  supplier: string;
  priced_on: string | null;
}

export interface LaidSoFar {
  pieces: string;
  yard: number[];
}

export interface LaterReading {
  label: string;
  level_mm: number | null;
}

export interface LaterVisit {
  date: string;
  read_by: string;
  instrument: string;
  reading_sd_mm: number;
  marks: FixedMark[];
  read_again: LaterReading[];
}

export interface Laying {
  unit: string | null;
  pattern: Pattern;
  border: Border | null;
  course_units: string[];
  pack: MixedPack | null;
  mix: number;
  stagger: number;
  along: [string, string] | null;
  bearing_deg: number;
  turn_deg: number;
  joint_mm: number;
  origin: string | null;
  centre_radius_mm: number | null;
  shift_along_mm: number;
  shift_across_mm: number;
  start_corner: StartCorner;
  bedding: Bedding;
  factory_edges: boolean;
  split_corners: boolean;
  fill_narrow: boolean;
  wall_joint_mm: number;
}

export interface LevelBook {
  name: string;
  length_m: number | null;
  rows: LevelBookRow[];
}

export interface LevelBookRow {
  point: string;
  backsight_mm: number | null;
  intermediate_mm: number | null;
  foresight_mm: number | null;
  booked_level_mm: number | null;
  on: StaffOn | null;
  note: string;
}

export type LevelTool = 
    | "optical_level"
    | "rotating_laser"
    | "water_level"
    | "spirit_level";

export type LipMeans = "gauge" | "staff";

export interface LipRead {
  name: string;
  area: string;
  lip_mm: number | null;
  means: LipMeans;
  sd_mm: number | null;
  joint_mm: number | null;
  fill: JointFill | null;
  warp_mm: number | null;
  x_mm: number | null;
  y_mm: number | null;
}

export interface Material {
  supplier: string;
  supplier_code: string;
  supplier_kind: SupplierKind | null;
  priced_on: string | null;
  min_packs: number | null;
  carriage_minor: number | null;
  lead_days: number | null;
  key: MaterialKind;
  name: string;
  pack_amount: number;
  pack_unit: PackUnit;
  pack_price_minor: number | null;
  length_mm: number | null;
  bulk_kg_per_m3: number | null;
}

export type MaterialKind = 
    | "cement"
    | "sharp_sand"
    | "soft_sand"
    | "ballast"
    | "sub_base"
    | "capping"
    | "open_stone"
    | "grit"
    | "blinding_sand"
    | "joint_sand"
    | "geotextile"
    | "edging"
    | "kerb"
    | "plasticiser"
    | "bond_coat"
    | "topsoil"
    | "channel"
    | "channel_end"
    | "channel_outlet"
    | "gully"
    | "grating"
    | "pipe"
    | "pipe_bend"
    | "pipe_gravel"
    | "perforated_pipe"
    | "silt_trap"
    | "soakaway_stone"
    | "soakaway_crates"
    | "step_unit"
    | "membrane"
    | "movement_joint"
    | "walling"
    | "drain_stone"
    | "guard";

export type Measure = "metric" | "imperial";

export interface MeasuredCurve {
  name: string;
  line_from: string;
  line_to: string;
  offsets: CurveOffset[];
  one_arc: boolean;
  note: string;
}

export interface Measurements {
  datum: string;
  points: GivenPoint[];
  offsets: OffsetPoint[];
  tape_plan: TapePlan | null;
  sketch: SketchedPoint[];
  curves: MeasuredCurve[];
  benchmarks: Benchmark[];
  level_books: LevelBook[];
  heights_over: HeightOver[];
  misclosure_rule: MisclosureRule;
  levels_together: boolean;
  ground_points: string[];
  break_lines: BreakLine[];
  ground_gaps: GroundGap[];
}

export type MisclosureRule = "setups" | "distance" | "third_order";

export interface MixedBatch {
  mix: string;
  count: number | null;
  mixed_min: number | null;
  mix_c: number | null;
}

export interface MixedPack {
  supplier: string;
  supplier_code: string;
  supplier_kind: SupplierKind | null;
  priced_on: string | null;
  min_packs: number | null;
  carriage_minor: number | null;
  lead_days: number | null;
  module_mm: number;
  counts: number[];
  covers_m2: number;
  pack_price_minor: number | null;
  parts: number;
  laid: LaidSoFar[];
}

export interface Mixes {
  sand_bulking_percent: number | null;
  sand_moisture_percent: number | null;
  bed_compaction_percent: number | null;
}

export interface MonthWeather {
  month: number;
  wet_days: number | null;
  frost_days: number | null;
  hot_days: number | null;
  mean_c: number | null;
}

export type Neighbour = "neighbour" | "highway" | "own";

export type NotTaken = 
    | "price"
    | "dates"
    | "other_firm"
    | "no_answer"
    | "put_off"
    | "not_our_work"
    | "too_far"
    | "other";

export interface Obstacle {
  name: string;
  point: string;
  diameter_mm: number | null;
  length_mm: number | null;
  width_mm: number | null;
  bearing_deg: number;
}

export interface OfferedChange {
  path: string;
  number: number | null;
  text: string | null;
  answer: boolean | null;
}

export interface OfferedOption {
  name: string;
  changes: OfferedChange[];
}

export interface OffsetPoint {
  name: string;
  line_from: string;
  line_to: string;
  along_mm: number;
  offset_mm: number;
  note: string;
}

export interface Opening {
  name: string;
  along_mm: number;
  width_mm: number;
  threshold_level_mm: number | string | AssumedLevel | null;
  min_step_mm: number;
  max_step_mm: number | null;
}

export interface Outfall {
  name: string;
  kind: OutfallKind;
  invert_level_mm: number | null;
  confirmed: boolean;
  soakaway: Soakaway | null;
  state: GullyState | null;
  assumed: Assumed | null;
  note: string;
}

export type OutfallKind = 
    | "border"
    | "lawn"
    | "soakaway"
    | "watercourse"
    | "surface_water_sewer"
    | "combined_sewer"
    | "unknown";

export interface OutlineCorner {
  point: string;
  rise_mm: number;
  through: string | null;
  centre: string | null;
  curve: string | null;
}

export type OutputKind = 
    | "set_out_h"
    | "dig_by_hand_h_per_m3"
    | "dig_by_machine_h_per_m3"
    | "load_by_hand_h_per_m3"
    | "wheel_h_per_m3"
    | "power_barrow_h_per_m3"
    | "carry_load_h_per_m3"
    | "fill_h_per_m3"
    | "wall_h_per_m2"
    | "guard_h_per_m"
    | "sub_base_h_per_m3"
    | "concrete_h_per_m3"
    | "concrete_by_hand_h_per_m3"
    | "lay_flags_h_per_m2"
    | "lay_blocks_h_per_m2"
    | "cut_h_each"
    | "point_h_per_m2"
    | "joint_sand_h_per_m2"
    | "kerb_h_per_m"
    | "edging_h_per_m"
    | "haunch_h_per_m"
    | "channel_h_per_m"
    | "cover_h_each"
    | "riser_h_per_m"
    | "gully_h_each"
    | "pipe_h_per_m"
    | "pit_fill_h_per_m3"
    | "silt_trap_h_each"
    | "clear_h";

export interface OwnOutput {
  kind: OutputKind;
  pattern: Pattern | null;
  hours_each: number;
  sd_hours: number | null;
  jobs: number | null;
  note: string;
}

export type PackUnit = "kg" | "m2" | "m" | "m3" | "litre" | "each";

export type Pattern = 
    | "stack"
    | "running"
    | "basketweave"
    | "herringbone"
    | "coursed"
    | "mixed"
    | "rings";

export interface PavingUnit {
  supplier: string;
  supplier_code: string;
  supplier_kind: SupplierKind | null;
  priced_on: string | null;
  min_packs: number | null;
  carriage_minor: number | null;
  lead_days: number | null;
  name: string;
  kind: UnitKind;
  material: string;
  length_mm: number;
  width_mm: number;
  thickness_mm: number;
  kg_each: number;
  per_pack: number;
  pack_price_minor: number | null;
  part_packs: boolean;
  joint_min_mm: number;
  joint_max_mm: number;
  breakage_percent: number | null;
  measured_lengths_mm: number[];
  measured_widths_mm: number[];
  in_yard: PieceInYard[];
  also_cut_from: string[];
  size_class: SizeClass | null;
  riven: boolean;
  veined: boolean;
  low_absorption: boolean;
}

export type PaymentEvent = 
    | "deposit"
    | "materials_on_site"
    | "base_in"
    | "laid"
    | "complete"
    | "snag_free";

export interface PermeableBase {
  stone_mm: number | null;
  infiltration_m_per_s: number | null;
  sealed_m2: number | null;
  lets_through: boolean | null;
}

export interface PersonOnSite {
  name: string;
  there_h: number | null;
}

export interface PhoneSlope {
  name: string;
  tool: SlopeTool;
  line_from: string | null;
  line_to: string | null;
  over_mm: number | null;
  pairs: SlopePair[];
  read_on: string | null;
  note: string;
}

export interface PhotoMark {
  name: string;
  point: string | null;
  seen_x_px: number;
  seen_y_px: number;
  x_mm: number | null;
  y_mm: number | null;
  sd_mm: number | null;
}

export interface PhotoPlane {
  name: string;
  photo: string;
  kind: PhotoPlaneKind;
  wall: string | null;
  level_from: string | null;
  width_px: number;
  height_px: number;
  marks: PhotoMark[];
  things: PhotoThing[];
  taken_on: string | null;
  note: string;
}

export type PhotoPlaneKind = "floor" | "wall";

export interface PhotoThing {
  name: string;
  seen_x_px: number;
  seen_y_px: number;
}

export interface PieceInYard {
  along_mm: number;
  across_mm: number;
  count: number;
}

export interface PinnedTask {
  task: string;
  on: string;
  reason: string;
}

export type PitFill = "stone" | "crates";

export interface PitTest {
  length_mm: number;
  width_mm: number;
  depth_mm: number;
  times_min: number[];
  date: string | null;
  note: string;
}

export interface PlantHire {
  supplier: string;
  supplier_code: string;
  supplier_kind: SupplierKind | null;
  priced_on: string | null;
  min_packs: number | null;
  carriage_minor: number | null;
  lead_days: number | null;
  key: PlantKind;
  name: string;
  day_price_minor: number | null;
  days: number | null;
  owned: boolean;
  usual: boolean;
  min_days: number | null;
  weekly_price_minor: number | null;
  off_hire_days: number | null;
  fuel_litres_per_hour: number | null;
  delivery_minor: number | null;
  kg_each: number | null;
  sole_length_mm: number | null;
  sole_width_mm: number | null;
  vibration_m_per_s2: number | null;
  noise_db: number | null;
}

export type PlantKind = 
    | "excavator"
    | "dumper"
    | "plate"
    | "mixer"
    | "saw"
    | "splitter"
    | "breaker"
    | "laser"
    | "other";

export interface PointOnLine {
  point: string;
  line_from: string;
  line_to: string;
  sd_mm: number | null;
}

export type Position = "front" | "side" | "rear";

export interface PrimeCostItem {
  name: string;
  amount_minor: number;
  attendance_percent: number;
  attendance_minor: number;
}

export interface PromisedVisit {
  name: string;
  kind: VisitKind;
  on: string;
  at_min: number | null;
  by: string;
  done_on: string | null;
  note: string;
}

export interface ProvisionalRate {
  name: string;
  unit: ProvisionalUnit;
  rate_minor: number;
  amount: number;
  low_amount: number | null;
  high_amount: number | null;
}

export type ProvisionalUnit = "m3" | "m2" | "m" | "each" | "hour" | "load" | "tonne";

export interface Quoted {
  on: string;
  revision: number;
  rates: Rates;
  crew: Crew;
  terms: Terms;
  unit_prices: QuotedUnit[];
  pack_prices: QuotedPack[];
}

export interface QuotedPack {
  supplier: string;
  supplier_code: string;
  supplier_kind: SupplierKind | null;
  priced_on: string | null;
  min_packs: number | null;
  carriage_minor: number | null;
  lead_days: number | null;
  units_in_pack: string[];
  counts: number[];
  pack_price_minor: number | null;
}

export interface QuotedUnit {
  supplier: string;
  supplier_code: string;
  supplier_kind: SupplierKind | null;
  priced_on: string | null;
  min_packs: number | null;
  carriage_minor: number | null;
  lead_days: number | null;
  unit: string;
  pack_price_minor: number | null;
}

export interface Rain {
  five_year_hour_mm: number | null;
  hour_to_two_days: number | null;
  depths: RainDepth[];
  years: number;
  climate_percent: number;
}

export interface RainDepth {
  duration_min: number;
  depth_mm: number;
}

export interface Rates {
  labour_minor_per_hour: number | null;
  labour: LabourRate[];
  plant: PlantHire[];
  disposal: Disposal | null;
  materials: Material[];
  catalogue: CatalogueItem[];
  assemblies: Assembly[];
  cut_price_minor: number | null;
  fill_price_minor: number | null;
  changes: ChangePrice[];
  overhead_percent: number | null;
  overhead_minor_per_hour: number | null;
  margin_percent: number | null;
  markup_percent: number | null;
  tax_percent: number | null;
  tax_name: string;
  tax_regime: TaxRegime | null;
  tax_lines: TaxLine[];
  tax_rounding: TaxRounding | null;
  rounding: Rounding | null;
  price_age_days: number | null;
}

export interface Received {
  on: string;
  amount_minor: number;
  bill: number | null;
  note: string;
}

export type Rocks = "no" | "a_c" | "b_d";

export interface Rounding {
  kind: RoundingKind;
  to_minor: number;
}

export type RoundingKind = "none" | "nearest" | "up";

export interface Service {
  name: string;
  kind: ServiceKind;
  points: string[];
  depth_mm: number | null;
  known_from: string;
}

export type ServiceKind = 
    | "electricity"
    | "gas"
    | "water"
    | "drain"
    | "telecom"
    | "oil"
    | "unknown";

export interface SetByHand {
  state: JobState;
  on: string;
  by: string;
  why: NotTaken | null;
  note: string;
}

export interface Settled {
  number: number;
  on: string;
  amount: number | null;
  cost_minor: number | null;
  note: string;
}

export type SettlingKind = "rate" | "actual_cost";

export interface Site {
  north_bearing_deg: number | null;
  access_width_mm: number | null;
  carry_mm: number | null;
  walls: Wall[];
  outfalls: Outfall[];
  gullies: Gully[];
  channels: Channel[];
  covers: Cover[];
  obstacles: Obstacle[];
  trees: Tree[];
  boundaries: Boundary[];
  tie_ins: TieIn[];
  services: Service[];
  ground: Ground;
  walk_round: WalkRoundAnswer[];
  rain: Rain | null;
}

export interface SiteDay {
  name: string;
  date: string;
  written_by: string;
  present: PersonOnSite[];
  worked: TaskHours[];
  bays: BayDone[];
  weather: DayWeather;
  mixed: MixedBatch[];
  delivered: DeliveredBatch[];
  waste: WasteTicket[];
  stops: WorkStop[];
  photos: string[];
  note: string;
}

export type SizeClass = 
    | "flag_n"
    | "flag_p"
    | "flag_r"
    | "block_under_100"
    | "block_from_100"
    | "stone_p1"
    | "stone_p2"
    | "stone_hewn"
    | "cast_stone";

export interface SketchedPoint {
  name: string;
  x_mm: number;
  y_mm: number;
}

export type Skill = 
    | "layer"
    | "groundworker"
    | "labourer"
    | "driver"
    | "drainage"
    | "any";

export type SkyKind = "dry" | "showers" | "rain" | "frost" | "snow";

export interface SlopePair {
  first_deg: number;
  turned_deg: number;
}

export type SlopeTool = "phone" | "digital_level" | "bubble";

export interface Snag {
  name: string;
  kind: SnagKind;
  what: string;
  area: string | null;
  x_mm: number | null;
  y_mm: number | null;
  found_on: string;
  found_by: string;
  owner: string;
  due: string | null;
  state: SnagState;
  closed_on: string | null;
  closed_by: string;
  note: string;
}

export type SnagKind = 
    | "level"
    | "standing_water"
    | "lip"
    | "gap"
    | "joint"
    | "rocking"
    | "chipped"
    | "stained"
    | "drain"
    | "edge"
    | "other";

export type SnagState = "open" | "done" | "left";

export interface Soakaway {
  length_mm: number | null;
  width_mm: number | null;
  depth_mm: number | null;
  cover_mm: number | null;
  fill: PitFill | null;
  void_percent: number;
  infiltration_m_per_s: number | null;
  pit_test: PitTest | null;
  point: string | null;
  note: string;
}

export type Soil = 
    | "heavy_clay"
    | "silty_clay"
    | "sandy_clay"
    | "silt"
    | "sand"
    | "gravel"
    | "made_ground"
    | "chalk"
    | "unknown";

export interface SpareUnits {
  unit: string;
  count: number;
  kept_at: string;
}

export interface SquareCorner {
  at: string;
  first: string;
  second: string;
  sd_mm: number | null;
}

export type SquareTool = "tape_triangle" | "builders_square" | "laser_square";

export type StaffOn = 
    | "ground"
    | "paving"
    | "dpc"
    | "threshold"
    | "air_brick"
    | "cover"
    | "gully"
    | "invert"
    | "edge"
    | "wall_top"
    | "water"
    | "mark";

export interface StagePayment {
  event: PaymentEvent;
  percent: number | null;
  amount_minor: number | null;
}

export interface Standing {
  by_hand: SetByHand | null;
  visits: PromisedVisit[];
}

export type StartCorner = "near_left" | "near_right" | "far_left" | "far_right";

export interface StepFlight {
  name: string;
  upper_area: string;
  lower_area: string;
  corner: string;
  risers: number | null;
  going_mm: number;
}

export type StopKind = 
    | "rain"
    | "frost"
    | "heat"
    | "delivery"
    | "breakdown"
    | "found"
    | "look"
    | "customer"
    | "people"
    | "other";

export interface StraightedgeGap {
  name: string;
  area: string;
  edge_mm: number;
  gap_mm: number | null;
  contacts_mm: number | null;
  warp_mm: number | null;
  means: GapMeans;
  sd_mm: number | null;
  x_mm: number | null;
  y_mm: number | null;
}

export interface Stratum {
  soil: Soil;
  thickness_mm: number | null;
  note: string;
}

export interface StringAsSet {
  peg: string;
  x_mm: number;
  y_mm: number;
  level_mm: number;
  read_on: string | null;
  read_by: string;
}

export interface SumToSettle {
  number: number;
  name: string;
  kind: SettlingKind;
  net_minor: number;
  unit: string;
  amount: number;
  rate_minor: number;
  supply_minor: number;
  of_minor: number;
  settles_minor: number;
  regime: TaxRegime;
  percent: number | null;
}

export type SupplierKind = 
    | "merchant"
    | "quarry"
    | "maker"
    | "hire"
    | "waste"
    | "carrier"
    | "labour"
    | "other";

export interface Tape {
  start: string;
  end: string;
  length_mm: number;
  sd_mm: number | null;
}

export type TapeClass = "class_i" | "class_ii" | "class_iii";

export interface TapePlan {
  base_from: string;
  base_to: string;
  x_mm: number;
  y_mm: number;
  bearing_deg: number;
  tapes: Tape[];
  sides: TapeSide[];
  square_corners: SquareCorner[];
  points_on_lines: PointOnLine[];
}

export interface TapeSide {
  point: string;
  line_from: string;
  line_to: string;
  side: Hand;
}

export interface TaskHours {
  task: string;
  person_h: number;
  done_percent: number | null;
  note: string;
}

export type TaxGroup = 
    | "labour"
    | "plant"
    | "disposal"
    | "provisional"
    | "material";

export interface TaxLine {
  group: TaxGroup | null;
  key: string | null;
  regime: TaxRegime;
  percent: number | null;
}

export type TaxRegime = "standard" | "reduced" | "zero" | "none" | "reverse_charge";

export type TaxRounding = "invoice" | "line" | "down" | "tenth";

export interface TaxedSum {
  regime: TaxRegime;
  percent: number | null;
  net_minor: number;
  tax_minor: number;
}

export interface Terms {
  stages: StagePayment[];
  retention_percent: number | null;
  retention_freed_percent: number;
  defects_days: number | null;
  days_to_pay: number | null;
  supplier_days: number | null;
  deposit_days: number | null;
  reclaims_tax: boolean | null;
  purchase_tax_percent: number | null;
  valid_days: number | null;
  warranty_months: number | null;
  complaint_to: string;
  complaint_days: number | null;
  prime_costs: PrimeCostItem[];
  provisional: ProvisionalRate[];
  options: OfferedOption[];
}

export interface TieIn {
  name: string;
  start: string;
  end: string;
  start_level_mm: number | string | AssumedLevel | null;
  end_level_mm: number | string | AssumedLevel | null;
  tolerance_mm: number;
  beyond: Beyond;
}

export type ToleranceRegime = "flags" | "blocks";

export interface ToolsAtHand {
  tape: TapeClass | null;
  tape_length_mm: number | null;
  tape_read_sd_mm: number | null;
  square: SquareTool | null;
  square_sd_deg: number | null;
  level: LevelTool | null;
  level_sd_mm: number | null;
  string_kg_per_km: number | null;
  string_pull_kg: number | null;
}

export interface Tree {
  name: string;
  point: string;
  stem_diameter_mm: number;
  protected: boolean | null;
}

export type UnitKind = "flag" | "block" | "sett";

export interface UnitRead {
  area: string;
  piece: number;
  x_mm: number;
  y_mm: number;
  corners: CornerRead[];
  way: CornerWay | null;
  sd_mm: number | null;
  rocks: Rocks | null;
  bed_mm: number | null;
  state: UnitState;
  date: string | null;
  read_by: string;
}

export type UnitState = "laid" | "to_re_bed";

export type Use = "foot" | "car" | "light_van";

export interface Variation {
  number: number;
  name: string;
  cause: VariationCause;
  reason: string;
  asked_by: string;
  on: string;
  state: VariationState;
  decided_on: string | null;
  decided_by: string;
  sums: TaxedSum[];
  days: number | null;
  measures: VariationMeasure[];
  before: DrawnArea[];
  after: DrawnArea[];
  gaps: number;
  stored_revision: number | null;
}

export type VariationCause = "asked" | "ground" | "hidden" | "design" | "rule" | "other";

export interface VariationMeasure {
  kind: VariationMeasureKind;
  where: string;
  before: number | null;
  after: number | null;
}

export type VariationMeasureKind = 
    | "dig_depth"
    | "level"
    | "dig"
    | "fill"
    | "stone"
    | "paved"
    | "loads";

export type VariationState = "proposed" | "approved" | "refused";

export type VisitKind = "look" | "measure" | "talk" | "later";

export interface WalkRoundAnswer {
  topic: WalkTopic | null;
  question: string;
  answer: AnswerKind;
  value: string;
}

export type WalkTopic = 
    | "shape"
    | "walls"
    | "tapes"
    | "curves"
    | "datum"
    | "staff"
    | "dpc"
    | "doors"
    | "air_bricks"
    | "covers"
    | "gullies"
    | "services"
    | "ground"
    | "trees"
    | "access"
    | "photos"
    | "questions"
    | "paving"
    | "price";

export interface Wall {
  name: string;
  start: string;
  end: string;
  kind: WallKind | null;
  dpc_level_mm: number | string | AssumedLevel | null;
  openings: Opening[];
  air_bricks: AirBrick[];
}

export type WallKind = "house" | "garden";

export type WasteKind = "soil" | "rubble" | "mixed" | "green" | "other";

export interface WasteTicket {
  ticket: string;
  carrier: string;
  what: WasteKind;
  volume_m3: number | null;
  mass_tonnes: number | null;
  went_to: string;
}

export type WaterTable = "high" | "low" | "unknown";

export type WorkStage = "dug" | "base" | "bed" | "laid" | "jointed";

export interface WorkStop {
  why: StopKind;
  lost_h: number | null;
  note: string;
}

export interface Zone {
  name: string;
  outline: OutlineCorner[];
  circle_at: string | null;
  radius_mm: number | null;
  beyond: [string, string] | null;
  laying: Laying;
}
