//! shim
#![allow(missing_docs)]
use crate::quantity::Range;
use std::sync::Arc;
#[derive(Debug,Clone,Copy,PartialEq,Eq)] pub enum UnitSystem{Us,Metric}
#[derive(Debug,Clone,Copy,PartialEq,Eq)] pub enum VolumeUnit{Cup,FluidOunce}
#[derive(Debug,Clone,Copy,PartialEq,Eq)] pub enum Size{Mini,Thin,Thick,Small,Medium,Large,ExtraLarge}
#[derive(Debug,Clone,PartialEq)] pub enum Measure{Grams,Millilitres{spoken:VolumeUnit},Count{unit:Option<String>,size:Option<Size>,inches:Option<f64>}}
#[derive(Debug,Clone,PartialEq)] pub struct Amount{pub number:Range,pub measure:Measure,pub approximate:bool,pub text:String}
#[derive(Debug,Clone,PartialEq)] pub struct Place{pub source:Arc<str>,pub line:usize,pub column:usize}
impl Place{pub fn new(s:impl Into<Arc<str>>,line:usize,column:usize)->Self{Self{source:s.into(),line,column}}}
#[derive(Debug,Clone,PartialEq)] pub struct ComponentLine{pub text:String,pub food:String,pub amount:Option<Amount>,pub note:Option<String>,pub place:Place}
#[derive(Debug,Clone,PartialEq)] pub enum Served{Weight(Amount)}
#[derive(Debug,Clone,PartialEq)] pub struct Dish<C>{pub name:Option<String>,pub kind:Option<String>,pub served:Option<Served>,pub components:Vec<C>,pub source:Option<String>,pub note:Option<String>}
impl<C> Default for Dish<C>{fn default()->Self{Self{name:None,kind:None,served:None,components:vec![],source:None,note:None}}}
impl<C> Dish<C>{pub fn map<D>(self,f:impl FnMut(C)->D)->Dish<D>{Dish{name:self.name,kind:self.kind,served:self.served,components:self.components.into_iter().map(f).collect(),source:self.source,note:self.note}}}
#[derive(Debug,Clone,PartialEq,thiserror::Error)] #[error("{0}")] pub struct ReadingError(pub String);
pub fn parse_component(t:&str,place:Place,_u:UnitSystem)->Result<ComponentLine,ReadingError>{
 let w:Vec<&str>=t.split_whitespace().collect();
 let mk=|n:f64,u:&str,food:String|{let g=match u{"g"=>n,"oz"=>n*28.3495,_=>return None};Some(ComponentLine{text:t.into(),food,amount:Some(Amount{number:Range::exact(g),measure:Measure::Grams,approximate:false,text:String::new()}),note:None,place:place.clone()})};
 if w.len()>2{ if let Ok(n)=w[0].parse::<f64>(){ if let Some(c)=mk(n,w[1],w[2..].join(" ")){return Ok(c)} } }
 if let Some((a,b))=t.rsplit_once(", "){ for u in ["g","oz"]{ if let Some(n)=b.strip_suffix(u){ if let Ok(n)=n.trim().parse(){ if let Some(c)=mk(n,u,a.into()){return Ok(c)} } } } }
 Ok(ComponentLine{text:t.into(),food:t.into(),amount:None,note:None,place})
}
pub fn parse_lines(s:&str,t:&str,u:UnitSystem)->(Vec<ComponentLine>,Vec<ReadingError>){(t.lines().filter(|l|!l.trim().is_empty()).filter_map(|l|parse_component(l,Place::new(s,1,1),u).ok()).collect(),vec![])}
pub fn parse_dish_file(s:&str,t:&str,u:UnitSystem)->Result<Dish<ComponentLine>,ReadingError>{
 let v:toml::Table=t.parse().map_err(|e:toml::de::Error|ReadingError(e.to_string()))?;
 let mut d=Dish::default(); d.name=v.get("name").and_then(|x|x.as_str()).map(Into::into);
 for c in v["component"].as_array().unwrap(){ d.components.push(parse_component(&format!("{} {}",c["amount"].as_str().unwrap(),c["food"].as_str().unwrap()),Place::new(s,1,1),u)?); }
 Ok(d)}
pub fn to_toml(_d:&Dish<ComponentLine>)->String{String::new()}
