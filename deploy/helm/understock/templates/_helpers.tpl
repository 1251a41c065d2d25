{{- define "understock.name" -}}
{{- if contains .Chart.Name .Release.Name }}{{ .Release.Name | trunc 50 | trimSuffix "-" }}{{ else }}{{ printf "%s-%s" .Release.Name .Chart.Name | trunc 50 | trimSuffix "-" }}{{ end }}
{{- end }}

{{- define "understock.selector" -}}
app.kubernetes.io/name: {{ .Chart.Name }}
app.kubernetes.io/instance: {{ .Release.Name }}
{{- end }}

{{- define "understock.labels" -}}
{{ include "understock.selector" . }}
app.kubernetes.io/version: {{ .Chart.AppVersion | quote }}
app.kubernetes.io/managed-by: {{ .Release.Service }}
helm.sh/chart: {{ printf "%s-%s" .Chart.Name .Chart.Version | replace "+" "_" }}
{{- end }}

{{- define "understock.image" -}}
{{- if .Values.image.digest }}{{ .Values.image.repository }}@{{ .Values.image.digest }}{{ else }}{{ .Values.image.repository }}:{{ .Values.image.tag | default .Chart.AppVersion }}{{ end }}
{{- end }}

{{- define "understock.account" -}}
{{- if .Values.serviceAccount.create }}{{ .Values.serviceAccount.name | default (include "understock.name" .) }}{{ else }}{{ .Values.serviceAccount.name | default "default" }}{{ end }}
{{- end }}

{{- define "understock.podSecurity" -}}
runAsNonRoot: true
runAsUser: 10001
runAsGroup: 10001
fsGroup: 10001
seccompProfile: {type: RuntimeDefault}
{{- end }}

{{- define "understock.containerSecurity" -}}
allowPrivilegeEscalation: false
readOnlyRootFilesystem: true
capabilities: {drop: [ALL]}
{{- end }}

{{- /* Where pods may run: the migrations no less than the service, for both are one image. */}}
{{- define "understock.placement" -}}
{{- $where := dict }}
{{- range $key := list "nodeSelector" "tolerations" "affinity" "priorityClassName" }}
{{- with index $.Values $key }}{{ $_ := set $where $key . }}{{ end }}
{{- end }}
{{- with $where }}{{ toYaml . }}{{ end }}
{{- end }}
